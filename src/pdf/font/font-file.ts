/** A TrueType font as it lies in its file (OpenType 1.9, "OpenType font file"): tables by their tags, glyphs by their numbers. */
export type FontFile = {
  /** The bytes of a table, empty where the font has none. */
  readonly table: (tag: string) => Buffer;
  readonly glyph: (id: number) => GlyphOnFile;
};

/** All that is kept of one glyph. */
export type GlyphOnFile = {
  /** Its outline (table glyf). */
  readonly outline: Buffer;
  /** Its row of the table hmtx: how wide it is and where its ink begins, two bytes each. */
  readonly metrics: Buffer;
  /** Glyphs that it is put together from, and where in the outline each is named. */
  readonly parts: readonly { readonly glyph: number; readonly at: number }[];
};

/** Reads a font's file; each glyph is looked up once. Nothing is copied. */
export function readFontFile(bytes: Uint8Array): FontFile {
  const whole = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const tables = new Map<string, Buffer>();
  for (let i = 0; i < whole.readUInt16BE(4); i++) {
    const entry = 12 + 16 * i;
    const start = whole.readUInt32BE(entry + 8);
    tables.set(
      whole.toString("latin1", entry, entry + 4),
      whole.subarray(start, start + whole.readUInt32BE(entry + 12)),
    );
  }
  const table = (tag: string) => tables.get(tag) ?? Buffer.alloc(0);
  const [glyf, loca, hmtx] = [table("glyf"), table("loca"), table("hmtx")];
  const long = table("head").readUInt16BE(50) === 1;
  const start = (id: number) => (long ? loca.readUInt32BE(4 * id) : 2 * loca.readUInt16BE(2 * id));
  const widths = table("hhea").readUInt16BE(34);

  const known = new Map<number, GlyphOnFile>();
  const glyph = (id: number): GlyphOnFile => {
    const before = known.get(id);
    if (before) return before;
    const outline = glyf.subarray(start(id), start(id + 1));
    const found = { outline, metrics: metricsOf(hmtx, widths, id), parts: partsOf(outline) };
    known.set(id, found);
    return found;
  };
  return { table, glyph };
}

/** Glyphs at the end may share the last width: they have a bearing only. */
function metricsOf(hmtx: Buffer, widths: number, id: number): Buffer {
  if (id < widths) return hmtx.subarray(4 * id, 4 * id + 4);
  const bearing = 4 * widths + 2 * (id - widths);
  return Buffer.concat([hmtx.subarray(4 * widths - 4, 4 * widths - 2), hmtx.subarray(bearing, bearing + 2)]);
}

const WORDS = 0x0001;
const SCALE = 0x0008;
const MORE = 0x0020;
const TWO_SCALES = 0x0040;
const MATRIX = 0x0080;

/** OpenType 1.9, table glyf, "Composite glyph description". */
function partsOf(outline: Buffer): GlyphOnFile["parts"] {
  if (outline.length === 0 || outline.readInt16BE(0) >= 0) return [];
  const parts: { glyph: number; at: number }[] = [];
  for (let at = 10, flags = MORE; (flags & MORE) !== 0; ) {
    flags = outline.readUInt16BE(at);
    parts.push({ glyph: outline.readUInt16BE(at + 2), at: at + 2 });
    at += 4 + ((flags & WORDS) !== 0 ? 4 : 2);
    at += (flags & MATRIX) !== 0 ? 8 : (flags & TWO_SCALES) !== 0 ? 4 : (flags & SCALE) !== 0 ? 2 : 0;
  }
  return parts;
}
