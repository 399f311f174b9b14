import { FEATURES, type Feature } from "./features.ts";
import type { ShelfEntry } from "./shelf-entry.ts";

/** How far two heads are apart in one feature; absent where neither job knows it. */
export type Apart = {
  readonly feature: Feature;
  /** In scales of the feature: 0 alike, 1 another size. */
  readonly by: number;
  /** Share of the squared distance. */
  readonly share: number;
};

/** What only one of two jobs knows counts as another size: it may be alike or not. */
const UNKNOWN = 1;
/** Other words, other conditions. */
const OTHER_WORD = 2;

/**
 * How far two heads are apart: a weighted mean of what they differ by, over all features that at least one job knows.
 *
 *     d = √( Σ w_i δ_i² ÷ Σ w_i )
 *     δ = |ln(a ÷ b)| ÷ scale        for sizes: relative difference in units of "another size"
 *     δ = 0 or 2                     for words: the same, another
 *     δ = 1                          where one job knows it and the other does not
 *
 * 0 for a head and itself; the same both ways; no order of the shelf changes it. Weights and scales stand in features.ts; they
 * are our own, by common practice, and so is the form: a distance on relative differences, so that a tenth of a millimetre
 * counts for more on a small valve. It says which heads are made and measured alike, not which flow alike.
 */
export function distance(
  a: ShelfEntry,
  b: ShelfEntry,
): { readonly distance: number; readonly apart: readonly Apart[] } {
  const known = FEATURES.flatMap((feature) => {
    const by = differ(feature, a, b);
    return by === undefined ? [] : [{ feature, by, squared: feature.weight * by * by }];
  });
  const weights = known.reduce((sum, { feature }) => sum + feature.weight, 0);
  const squares = known.reduce((sum, { squared }) => sum + squared, 0);
  return {
    distance: weights === 0 ? 0 : Math.sqrt(squares / weights),
    apart: known.map(({ feature, by, squared }) => ({ feature, by, share: squares === 0 ? 0 : squared / squares })),
  };
}

function differ(feature: Feature, a: ShelfEntry, b: ShelfEntry): number | undefined {
  const x = feature.of(a);
  const y = feature.of(b);
  if (x === undefined || y === undefined) return x === y ? undefined : UNKNOWN;
  if (feature.holds === "word") return x === y ? 0 : OTHER_WORD;
  return Math.abs(Math.log((x as number) / (y as number))) / feature.scale;
}
