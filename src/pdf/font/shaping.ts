/** What of a font is asked for before anything is embedded [font units]. */
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

/** A word as glyphs, set one after another. */
export type Shaped = {
  readonly glyphs: readonly number[];
  /** How wide each glyph is by itself [font units]. */
  readonly widths: readonly number[];
  /** How far the pen goes on after each: its width and its kerning. */
  readonly advances: readonly number[];
  /** The letters that each stands for, as a reader copies them. */
  readonly letters: readonly (readonly number[])[];
  /** Where a mark stands beside its pen, for each glyph; absent where none does. */
  readonly offsets?: readonly (readonly [x: number, y: number])[];
};

/** How a font sets the letters of common texts, made out once at build time: measuring then takes no font apart. */
export type ShapingTable = {
  readonly facts: FontFacts;
  /** Letters that the table knows; after them, as one more, each of `ligatures`. */
  readonly letters: string;
  /** By letter: its glyph, its width, and the code point that a reader copies. */
  readonly glyphs: readonly number[];
  readonly widths: readonly number[];
  readonly copied: readonly number[];
  /** By letter, one digit: 0 goes with every script, others with their own only. */
  readonly scripts: string;
  /** Two letters that one glyph stands for. */
  readonly ligatures: readonly string[];
  /** By letter: its kind to what follows it, and to what it follows. */
  readonly left: readonly number[];
  readonly right: readonly number[];
  /** By those kinds: what is added to the width of the first. */
  readonly kerning: readonly (readonly number[])[];
};

/** Shapes words of the letters in a table; says undefined of any other. */
export function shapeByTable(table: ShapingTable): (word: string) => Shaped | undefined {
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
      // Half of a surrogate pair is no letter of the table.
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
