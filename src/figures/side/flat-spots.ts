import type { Metres } from "../../units/quantity.ts";
import { SAME_LIFT } from "../../units/same-lift.ts";
import type { SideFigures } from "../figures.ts";
import { combineInputs, expandedAt } from "../math/uncertainty.ts";
import type { MeanReading } from "../sweep/sweep.ts";
import type { RangeRule } from "./curve-shape.ts";

/** A flat spot is neither shorter nor longer than this, as lift ÷ diameter (common practice). */
const LENGTH = { least: 0.02, most: 0.1 } as const;
/** Level of confidence at which a stretch is flatter than those beside it. */
const LEVEL = 0.98;

/** A stretch of the curve, and by how many of its ± it is flatter than the one beside it that differs least. */
type Spot = { readonly from_lift_m: number; readonly to_lift_m: number; readonly clearness: number };

/**
 * Flat spots: stretches between two readings whose rise per lift is clearly below both that of the stretch before and that of the
 * one after, each the shortest of readings that is at least as long. A curve that only bends over has none.
 *
 *     (Q_b − Q_a) ÷ (L_b − L_a) − (Q_c − Q_b) ÷ (L_c − L_b) > U, and likewise after it; 0.02 D ≤ L_c − L_b ≤ 0.10 D
 *
 * @param good      good readings, lifts ascending
 * @param diameter  D of the valve [m], if known
 * @param meets     whether readings of these ranges tell nothing of each other, see `isAccuracyUnknown`
 * @returns         the stretches, ascending, none overlapping: of those that do the clearest; none without D or without a ±
 * @source          JCGM 100:2008 (GUM), 5.2, for the ±; the lengths are common practice
 * @example         flatSpots([{ lift: 1, flow: 5 }, { lift: 2, flow: 7 }, { lift: 3, flow: 7 }], 44, () => false) // []
 */
export function flatSpots(
  good: readonly MeanReading[],
  diameter: Metres | undefined,
  meets: RangeRule,
): NonNullable<SideFigures["flat_spots"]> {
  const spots = diameter === undefined ? [] : stretches(good, diameter).flatMap((one) => spotOf(one, meets) ?? []);
  const chosen: Spot[] = [];
  for (const spot of spots.toSorted((a, b) => b.clearness - a.clearness)) {
    const isApart = (other: Spot) => spot.to_lift_m <= other.from_lift_m || spot.from_lift_m >= other.to_lift_m;
    if (chosen.every(isApart)) chosen.push(spot);
  }
  return chosen
    .toSorted((a, b) => a.from_lift_m - b.from_lift_m)
    .map(({ from_lift_m, to_lift_m }) => ({ from_lift_m, to_lift_m }));
}

/** Readings that bound a stretch and the stretches before and after it. */
type Stretch = readonly [a: MeanReading, b: MeanReading, c: MeanReading, d: MeanReading];

/** Every stretch of a flat spot's length that has stretches at least as long before and after it. */
function stretches(good: readonly MeanReading[], diameter: Metres): Stretch[] {
  return good.flatMap((b, left) =>
    good.slice(left + 1).flatMap((c): Stretch[] => {
      const length = c.lift - b.lift;
      if (length < LENGTH.least * diameter - SAME_LIFT || length > LENGTH.most * diameter + SAME_LIFT) return [];
      const a = good.findLast((one) => b.lift - one.lift >= length - SAME_LIFT);
      const d = good.find((one) => one.lift - c.lift >= length - SAME_LIFT);
      return a === undefined || d === undefined ? [] : [[a, b, c, d]];
    }),
  );
}

/** The stretch as a flat spot, where it is one. */
function spotOf([a, b, c, d]: Stretch, meets: RangeRule): Spot | undefined {
  const before = flatterBy(b, c, a, b);
  if (!(before > 1)) return undefined;
  const clearness = Math.min(before, flatterBy(b, c, c, d));
  const isOne = clearness > 1 && !meets([a, b, c, d].flatMap(({ ranges }) => ranges));
  return isOne ? { from_lift_m: b.lift, to_lift_m: c.lift, clearness } : undefined;
}

/** By how many of its ± the stretch from b to c rises less per lift than that from p to q; 0 where it does not, or no ± is known. */
function flatterBy(b: MeanReading, c: MeanReading, p: MeanReading, q: MeanReading): number {
  const [flat, steep] = [1 / (c.lift - b.lift), 1 / (q.lift - p.lift)];
  const difference = (q.flow - p.flow) * steep - (c.flow - b.flow) * flat;
  const budgets = [p, q, b, c].flatMap(({ terms }) => (terms === undefined ? [] : [terms]));
  if (!(difference > 0) || budgets.length < 4) return 0;
  return difference / expandedAt(combineInputs(budgets, [-steep, steep, flat, -flat], "own"), LEVEL);
}
