import type { Measure } from "../../src/text/measure.ts";

const WEIGHTS: readonly string[] = ["regular", "medium", "semibold"];

/** Every character half as wide as the type is high, no font files: widths anyone can check by counting. */
export const fixedMeasure: Measure = {
  width: (text, weight, size) => {
    if (!WEIGHTS.includes(weight)) throw new Error(`no font of weight "${weight}"`);
    return [...text].length * size * 0.5;
  },
  missing: (text) => [...new Set(text)].filter((letter) => letter === "\u2300"),
  capHeight: 0.7,
  xHeight: 0.5,
  ascent: 1,
  descent: 0.25,
};
