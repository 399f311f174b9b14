import type { Measure, Weight } from "./measure.ts";

/** Widths kept: those of some hundred sheets; then all are measured anew. */
const MOST = 20_000;

const measuring = new WeakMap<Measure, Measure>();

/** The same measure, which works out a text in one weight and size once: tables, columns and lines ask for it again. */
export function measuredOnce(measure: Measure): Measure {
  const known = measuring.get(measure);
  if (known) return known;
  const widths: Record<Weight, Map<number, Map<string, number>>> = {
    regular: new Map(),
    semibold: new Map(),
    bold: new Map(),
  };
  let kept = 0;
  const sized = (weight: Weight, size: number) => {
    const known = widths[weight].get(size);
    if (known) return known;
    const none = new Map<string, number>();
    widths[weight].set(size, none);
    return none;
  };
  const once: Measure = {
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
  measuring.set(measure, once);
  return once;
}
