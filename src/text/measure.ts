/** Weights of the font family. */
export type Weight = "regular" | "medium" | "semibold";

/** Text measure shared by charts, layout and paint. */
export type Measure = {
  /** Width of `text` set on one line [pt]. Kerning as painted. */
  readonly width: (text: string, weight: Weight, size: number) => number;
  /** Characters of `text` the font cannot draw, each once, in order. */
  readonly missing: (text: string) => readonly string[];
  /** Height of capitals, and of x, as a share of the size. */
  readonly capHeight: number;
  readonly xHeight: number;
  readonly ascent: number;
  readonly descent: number;
};

/** Widths kept: those of some hundred sheets; then the cache is cleared. */
const MOST = 20_000;

/** The same measure with a cache of widths by text, weight and size: tables, columns and lines repeat them. */
export function cachedMeasure(measure: Measure): Measure {
  const widths: Record<Weight, Map<number, Map<string, number>>> = {
    regular: new Map(),
    medium: new Map(),
    semibold: new Map(),
  };
  let kept = 0;
  const sized = (weight: Weight, size: number) => {
    const known = widths[weight].get(size);
    if (known) return known;
    const none = new Map<string, number>();
    widths[weight].set(size, none);
    return none;
  };
  return {
    ...measure,
    width(text, weight, size) {
      const known = sized(weight, size).get(text);
      if (known !== undefined) return known;
      if (kept >= MOST) {
        for (const one of Object.values(widths)) one.clear();
        kept = 0;
      }
      const width = measure.width(text, weight, size);
      sized(weight, size).set(text, width);
      kept += 1;
      return width;
    },
  };
}
