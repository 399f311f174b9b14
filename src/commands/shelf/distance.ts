import { FEATURES, type Feature } from "./features.ts";
import type { ShelfEntry } from "./shelf-entry.ts";

/** Distance of two heads in one feature that at least one job states. */
export type FeatureDistance = {
  readonly feature: Feature;
  /** In scales of the feature: 0 equal, 1 another size; absent where only one job states it. */
  readonly by?: number;
  /** Share of the squared distance. */
  readonly share: number;
};

/** Distance of unequal words. */
const UNLIKE_WORD = 2;

/**
 * Distance of two heads: weighted root mean square of their differences over all features that both jobs state.
 *
 *     d = √( Σ w_i δ_i² ÷ Σ w_i )
 *     δ = |ln(a ÷ b)| ÷ scale        for sizes: relative difference in units of "another size"; 0 within the tolerance
 *     δ = 0 or 2                     for words: equal, unequal
 *
 * A feature that only one job states does not count. The distance is 0 for a head and itself, symmetric, and independent of the
 * order of the shelf. `known` is the weight of the features that both jobs state, as a share of those that either states. Weights
 * and scales are in features.ts; they and the form are our own, by common practice: relative differences make a tenth of a
 * millimetre count for more on a small valve. It ranks how alike heads are made and measured, not how alike they flow.
 */
export function distance(
  a: ShelfEntry,
  b: ShelfEntry,
): { readonly distance: number; readonly known: number; readonly byFeature: readonly FeatureDistance[] } {
  const compared = FEATURES.flatMap((feature): { feature: Feature; by?: number; squared: number }[] => {
    const [x, y] = [feature.of(a), feature.of(b)];
    if (x === undefined && y === undefined) return [];
    if (x === undefined || y === undefined) return [{ feature, squared: 0 }];
    const by = feature.holds === "word" ? (feature.alike(a, b) ? 0 : UNLIKE_WORD) : sizeDistance(feature, x, y);
    return [{ feature, by, squared: feature.weight * by * by }];
  });
  const weightOf = (some: typeof compared) => some.reduce((sum, { feature }) => sum + feature.weight, 0);
  const whole = weightOf(compared);
  const weights = weightOf(compared.filter(({ by }) => by !== undefined));
  const squares = compared.reduce((sum, { squared }) => sum + squared, 0);
  return {
    distance: weights === 0 ? 0 : Math.sqrt(squares / weights),
    known: whole === 0 ? 0 : weights / whole,
    byFeature: compared.map(({ feature, by, squared }) => ({
      feature,
      ...(by !== undefined && { by }),
      share: squares === 0 ? 0 : squared / squares,
    })),
  };
}

function sizeDistance({ scale, within }: Feature & { holds: "size" }, x: string | number, y: string | number): number {
  const difference = Math.abs(Math.log((x as number) / (y as number)));
  return difference <= within ? 0 : difference / scale;
}
