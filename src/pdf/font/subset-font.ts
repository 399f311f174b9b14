import type { FontFile, GlyphOnFile } from "./font-file.ts";

/** Tables that a font inside a PDF has (ISO 32000-1, 9.9), in the order they are written. */
const TABLES = ["head", "hhea", "loca", "maxp", "cvt ", "prep", "glyf", "hmtx", "fpgm"] as const;

/**
 * A font file with these glyphs only, numbered as they stand in the list; glyphs that they are put together from follow them.
 * Byte for byte what fontkit writes, without taking the font apart for each document.
 */
export function subsetFont(font: FontFile, glyphs: readonly number[]): Buffer {
  const numbers = new Map(glyphs.map((glyph, number) => [glyph, number]));
  const kept: GlyphOnFile[] = [];
  // The map grows while it is walked: a part follows the glyphs that were asked for.
  for (const glyph of numbers.keys()) {
    const { outline, metrics, parts } = font.glyph(glyph);
    kept.push({ outline: parts.length === 0 ? outline : renumbered(outline, parts, numbers), metrics, parts });
  }

  const short = font.table("head").readUInt16BE(50) === 0;
  const loca = Buffer.alloc((kept.length + 1) * (short ? 2 : 4));
  let end = 0;
  kept.forEach(({ outline }, i) => {
    end += outline.length;
    if (short) loca.writeUInt16BE(end / 2, 2 * i + 2);
    else loca.writeUInt32BE(end, 4 * i + 4);
  });
  return fontOf({
    head: font.table("head"),
    hhea: withCount(font.table("hhea"), 34, kept.length),
    loca,
    maxp: withCount(font.table("maxp"), 4, kept.length),
    "cvt ": font.table("cvt "),
    prep: font.table("prep"),
    glyf: Buffer.concat(kept.map(({ outline }) => outline)),
    hmtx: Buffer.concat(kept.map(({ metrics }) => metrics)),
    fpgm: font.table("fpgm"),
  });
}

/** A glyph put together from others names them by the numbers they have in this file. */
function renumbered(outline: Buffer, parts: GlyphOnFile["parts"], numbers: Map<number, number>): Buffer {
  const bytes = Buffer.from(outline);
  for (const { glyph, at } of parts) {
    if (!numbers.has(glyph)) numbers.set(glyph, numbers.size);
    bytes.writeUInt16BE(numbers.get(glyph)!, at);
  }
  return bytes;
}

function withCount(table: Buffer, at: number, count: number): Buffer {
  const bytes = Buffer.from(table);
  bytes.writeUInt16BE(count, at);
  return bytes;
}

/** Checksums stay 0, as fontkit leaves them: no reader of a PDF asks for them. */
function fontOf(tables: Readonly<Record<(typeof TABLES)[number], Buffer>>): Buffer {
  const held = TABLES.filter((tag) => tables[tag].length > 0);
  const head = Buffer.alloc(12 + 16 * held.length);
  const power = Math.floor(Math.log2(held.length));
  head.write("true", 0, "latin1");
  head.writeUInt16BE(held.length, 4);
  head.writeUInt16BE(16 * 2 ** power, 6);
  head.writeUInt16BE(power, 8);
  head.writeUInt16BE(16 * (held.length - 2 ** power), 10);
  let at = head.length;
  held.forEach((tag, i) => {
    head.write(tag, 12 + 16 * i, "latin1");
    head.writeUInt32BE(at, 20 + 16 * i);
    head.writeUInt32BE(tables[tag].length, 24 + 16 * i);
    at += tables[tag].length;
  });
  return Buffer.concat([head, ...held.map((tag) => tables[tag])]);
}
