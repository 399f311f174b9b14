import type { Face } from "fontkit";
import type { FontFacts, ShapedWord } from "./shaping.ts";

/** Metrics and flags of a font. */
export function fontFacts(face: Face): FontFacts {
  const { bbox, post, head } = face;
  const family = (face["OS/2"]?.sFamilyClass ?? 0) >> 8;
  const serif = family >= 1 && family <= 7 ? 1 << 1 : 0;
  const script = family === 10 ? 1 << 3 : 0;
  return {
    name: face.postscriptName,
    unitsPerEm: face.unitsPerEm,
    ascent: face.ascent,
    descent: face.descent,
    capHeight: face.capHeight,
    xHeight: face.xHeight,
    box: [bbox.minX, bbox.minY, bbox.maxX, bbox.maxY],
    italicAngle: face.italicAngle,
    flags: (post.isFixedPitch ? 1 : 0) | serif | (1 << 2) | script | (head.macStyle.italic ? 1 << 6 : 0),
  };
}

/** Creates a shaper for any word, with all features of the font. */
export function createFontkitShaper(face: Face): (word: string) => ShapedWord {
  // fontkit caches a glyph with the code points of its first use, none if that was as a component ("O" of "Ö"), so text of a
  // later document could not be copied. The code points therefore come from the font's character map.
  const own = new Map<number, readonly number[]>();
  const lettersOf = (glyph: { readonly id: number; readonly codePoints: readonly number[] }) => {
    const known =
      own.get(glyph.id) ??
      face
        .stringsForGlyph(glyph.id)
        .slice(0, 1)
        .map((text) => text.codePointAt(0)!);
    own.set(glyph.id, known);
    return known.length > 0 ? known : glyph.codePoints;
  };
  return (word) => {
    const { glyphs, positions } = face.layout(word);
    const moved = positions.some(({ xOffset, yOffset }) => xOffset !== 0 || yOffset !== 0);
    return {
      glyphs: glyphs.map(({ id }) => id),
      widths: glyphs.map(({ advanceWidth }) => advanceWidth),
      advances: positions.map(({ xAdvance }) => xAdvance),
      letters: glyphs.map(lettersOf),
      ...(moved && { offsets: positions.map(({ xOffset, yOffset }) => [xOffset, yOffset] as const) }),
    };
  };
}
