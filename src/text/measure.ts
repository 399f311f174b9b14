/** Weights of the one family we set. */
export type Weight = "regular" | "semibold" | "bold";

/** The one measure for charts, layout and paint. */
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
