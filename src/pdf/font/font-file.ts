import { createRequire } from "node:module";
import { join } from "node:path";
import type { Weight } from "../../text/measure.ts";

/** Typefaces that a shop may choose: package and name of their files. */
const FAMILIES = {
  plex: { from: "@expo-google-fonts/ibm-plex-sans", name: "IBMPlexSans" },
  source: { from: "@expo-google-fonts/source-sans-3", name: "SourceSans3" },
  open: { from: "@expo-google-fonts/open-sans", name: "OpenSans" },
} as const;
export type Family = keyof typeof FAMILIES;
export const families = Object.keys(FAMILIES) as readonly Family[];

/** Paths of the fonts: in the folder to which the build copied them, else in their package. */
export function resolveFontPaths(folder?: string, family: Family = "plex"): Readonly<Record<Weight, string>> {
  const { from, name: prefix } = FAMILIES[family];
  const path = (weight: string) => {
    const name = `${prefix}_${weight}.ttf`;
    return folder === undefined
      ? createRequire(import.meta.url).resolve(`${from}/${weight}/${name}`)
      : join(folder, name);
  };
  return { regular: path("400Regular"), semibold: path("600SemiBold"), medium: path("500Medium") };
}

/** A parsed TrueType file (OpenType 1.9, "OpenType font file"): tables by tag, glyphs by number. */
export type FontFile = {
  /** The bytes of a table; empty when the font lacks it. */
  readonly table: (tag: string) => Buffer;
  readonly glyph: (id: number) => GlyphRecord;
};

/** The records of one glyph. */
export type GlyphRecord = {
  /** Outline (table glyf). */
  readonly outline: Buffer;
  /** Entry of table hmtx: advance width and left side bearing, two bytes each. */
  readonly metrics: Buffer;
  /** Components of a composite glyph, and the offset in the outline of each reference. */
  readonly components: readonly { readonly glyph: number; readonly at: number }[];
};

/** Parses a font file into views on its bytes; glyphs are cached. */
export function parseFontFile(bytes: Uint8Array): FontFile {
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

  const known = new Map<number, GlyphRecord>();
  const glyph = (id: number): GlyphRecord => {
    const before = known.get(id);
    if (before) return before;
    const outline = glyf.subarray(start(id), start(id + 1));
    const found = { outline, metrics: glyphMetrics(hmtx, widths, id), components: parseComponents(outline) };
    known.set(id, found);
    return found;
  };
  return { table, glyph };
}

/** The metrics of a glyph: the last glyphs may have a bearing only and share the last advance width. */
function glyphMetrics(hmtx: Buffer, widths: number, id: number): Buffer {
  if (id < widths) return hmtx.subarray(4 * id, 4 * id + 4);
  const bearing = 4 * widths + 2 * (id - widths);
  return Buffer.concat([hmtx.subarray(4 * widths - 4, 4 * widths - 2), hmtx.subarray(bearing, bearing + 2)]);
}

const ARGS_ARE_WORDS = 0x0001;
const HAS_SCALE = 0x0008;
const MORE_COMPONENTS = 0x0020;
const HAS_TWO_SCALES = 0x0040;
const HAS_MATRIX = 0x0080;

/** OpenType 1.9, table glyf, "Composite glyph description". */
function parseComponents(outline: Buffer): GlyphRecord["components"] {
  if (outline.length === 0 || outline.readInt16BE(0) >= 0) return [];
  const parts: { glyph: number; at: number }[] = [];
  for (let at = 10, flags = MORE_COMPONENTS; (flags & MORE_COMPONENTS) !== 0; ) {
    flags = outline.readUInt16BE(at);
    parts.push({ glyph: outline.readUInt16BE(at + 2), at: at + 2 });
    at += 4 + ((flags & ARGS_ARE_WORDS) !== 0 ? 4 : 2);
    at += (flags & HAS_MATRIX) !== 0 ? 8 : (flags & HAS_TWO_SCALES) !== 0 ? 4 : (flags & HAS_SCALE) !== 0 ? 2 : 0;
  }
  return parts;
}
