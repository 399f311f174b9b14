/** Metrics and flags of a font [font units]. */
export type FontFacts = {
  readonly name: string;
  readonly unitsPerEm: number;
  readonly ascent: number;
  readonly descent: number;
  readonly capHeight: number;
  readonly xHeight: number;
  readonly box: readonly [left: number, bottom: number, right: number, top: number];
  readonly italicAngle: number;
  /** ISO 32000-1, table 123. */
  readonly flags: number;
};

/** A word as a run of glyphs. */
export type ShapedWord = {
  readonly glyphs: readonly number[];
  /** Width of each glyph [font units]. */
  readonly widths: readonly number[];
  /** Advance after each glyph: width and kerning. */
  readonly advances: readonly number[];
  /** Code points of each glyph, for text extraction. */
  readonly letters: readonly (readonly number[])[];
  /** Displacement of each glyph from the pen, as for marks; absent when all are zero. */
  readonly offsets?: readonly (readonly [x: number, y: number])[];
};

/** Glyphs and kerning of common letters, computed at build time so that measuring needs no font parser. */
export type ShapingTable = {
  readonly facts: FontFacts;
  /** Letters in the table; the entries of `ligatures` follow them in the lists below. */
  readonly letters: string;
  /** By letter: glyph, width, and code point for text extraction. */
  readonly glyphs: readonly number[];
  readonly widths: readonly number[];
  readonly copied: readonly number[];
  /** By letter, one digit: 0 is common to all scripts, others belong to one script. */
  readonly scripts: string;
  /** Pairs of letters replaced by one glyph. */
  readonly ligatures: readonly string[];
  /** By letter: kerning class as the first and as the second of a pair. */
  readonly left: readonly number[];
  readonly right: readonly number[];
  /** By both classes: adjustment of the first letter's advance. */
  readonly kerning: readonly (readonly number[])[];
};

/** Creates a shaper for words of letters in the table; it returns undefined for any other word. */
export function createWordShaper(table: ShapingTable): (word: string) => ShapedWord | undefined {
  const { glyphs, widths, copied, scripts, left, right, kerning, ligatures } = table;
  const places = new Map([...table.letters].map((letter, place) => [letter.codePointAt(0)!, place]));
  const joined = new Map(ligatures.map((pair, i) => [pair, places.size + i]));
  const firsts = new Set(ligatures.map((pair) => pair.charCodeAt(0)));

  return (word) => {
    const set: number[] = [];
    let script = "0";
    for (let i = 0; i < word.length; i++) {
      const code = word.charCodeAt(i);
      const pair = firsts.has(code) ? joined.get(word.slice(i, i + 2)) : undefined;
      // A surrogate is never in the table.
      const place = pair ?? places.get(code);
      if (place === undefined) return undefined;
      const own = scripts[place]!;
      if (own !== "0" && script !== "0" && own !== script) return undefined;
      if (own !== "0") script = own;
      set.push(place);
      if (pair !== undefined) i++;
    }
    return {
      glyphs: set.map((place) => glyphs[place]!),
      widths: set.map((place) => widths[place]!),
      advances: set.map((place, i) => {
        const next = set[i + 1];
        return widths[place]! + (next === undefined ? 0 : kerning[left[place]!]![right[next]!]!);
      }),
      letters: set.map((place) => {
        const pair = place - places.size;
        return pair < 0 || copied[place] !== 0 ? [copied[place]!] : [...ligatures[pair]!].map((c) => c.charCodeAt(0));
      }),
    };
  };
}
