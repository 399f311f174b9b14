import { FEATURES, type Feature } from "./features.ts";
import type { ShelfEntry } from "./shelf-entry.ts";

/** How far two heads are apart in one feature; absent where neither job knows it. */
export type FeatureDistance = {
  readonly feature: Feature;
  /** In scales of the feature: 0 alike, 1 another size; absent where only one of both knows it. */
  readonly by?: number;
  /** Share of the squared distance. */
  readonly share: number;
};

/** Other words, other conditions. */
const OTHER_WORD = 2;

/**
 * How far two heads are apart: a weighted mean of what they differ by, over all features that both jobs know.
 *
 *     d = √( Σ w_i δ_i² ÷ Σ w_i )
 *     δ = |ln(a ÷ b)| ÷ scale        for sizes: relative difference in units of "another size"; 0 where none can be told
 *     δ = 0 or 2                     for words: the same, another
 *
 * What one job knows and the other does not may be alike or not: it makes them neither near nor far. 0 for a head and itself;
 * the same both ways; no order of the shelf changes it. `known` is the share of weight that both know of what either does.
 * Weights and scales stand in features.ts; they are our own, by common practice, and so is the form: a distance on relative
 * differences, so that a tenth of a millimetre counts for more on a small valve. It says which heads are made and measured
 * alike, not which flow alike.
 */
export function distance(
  a: ShelfEntry,
  b: ShelfEntry,
): { readonly distance: number; readonly known: number; readonly apart: readonly FeatureDistance[] } {
  const looked = FEATURES.flatMap((feature): { feature: Feature; by?: number; squared: number }[] => {
    const [x, y] = [feature.of(a), feature.of(b)];
    if (x === undefined && y === undefined) return [];
    if (x === undefined || y === undefined) return [{ feature, squared: 0 }];
    const by = feature.holds === "word" ? (feature.alike(a, b) ? 0 : OTHER_WORD) : sizesApart(feature, x, y);
    return [{ feature, by, squared: feature.weight * by * by }];
  });
  const weightOf = (some: typeof looked) => some.reduce((sum, { feature }) => sum + feature.weight, 0);
  const whole = weightOf(looked);
  const weights = weightOf(looked.filter(({ by }) => by !== undefined));
  const squares = looked.reduce((sum, { squared }) => sum + squared, 0);
  return {
    distance: weights === 0 ? 0 : Math.sqrt(squares / weights),
    known: whole === 0 ? 0 : weights / whole,
    apart: looked.map(({ feature, by, squared }) => ({
      feature,
      ...(by !== undefined && { by }),
      share: squares === 0 ? 0 : squared / squares,
    })),
  };
}

function sizesApart({ scale, within }: Feature & { holds: "size" }, x: string | number, y: string | number): number {
  const apart = Math.abs(Math.log((x as number) / (y as number)));
  return apart <= within ? 0 : apart / scale;
}
