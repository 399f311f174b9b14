import { NO_FLOW } from "../constants.ts";
import type { SideFigures } from "../figures.ts";
import { budgetOf } from "../math/uncertainty.ts";
import type { MeanReading } from "../sweep/sweep.ts";
import { uncertaintyOfDifference, uncertaintyOfRatio } from "../sweep/sweep-uncertainty.ts";
import { verdictOn } from "../sweep/verdict.ts";

/**
 * Peak of a sweep: its highest reading, never an interpolated one; of equal readings that of the lowest lift.
 *
 *     max Q_i
 *
 * @param good  good readings, lifts ascending
 * @returns     the reading, or undefined for an empty sweep
 * @example     peakReading([{ lift: 1, flow: 5 }, { lift: 2, flow: 7 }, { lift: 3, flow: 7 }]).lift // 2
 */
export function peakReading(good: readonly MeanReading[]): MeanReading | undefined {
  return good.reduce<MeanReading | undefined>(
    (best, reading) => (best === undefined || reading.flow > best.flow ? reading : best),
    undefined,
  );
}

/**
 * Change from the peak to the last lift, as a share of the peak.
 *
 *     change = Q_last ÷ Q_peak − 1
 *
 * @param good   good readings, lifts ascending
 * @param meets  whether readings of these ranges tell nothing of each other, see `isAccuracyUnknown`
 * @returns      the change [1] with its ± and verdict; 0 alone when the peak is the last lift; undefined for an empty sweep, no
 *               flow, or two ranges
 * @source       common practice
 * @example      afterPeak([{ lift: 1, flow: 268, ranges: [""] }, { lift: 2, flow: 254, ranges: [""] }], () => false).change // -0.05224
 */
export function afterPeak(good: readonly MeanReading[], meets: RangeRule): SideFigures["after_peak"] {
  const peak = peakReading(good);
  const last = good[good.length - 1];
  if (peak === undefined || last === undefined || !(peak.flow > NO_FLOW)) return undefined;
  if (peak === last) return { to_lift_m: last.lift, change: 0 };
  if (meets([...peak.ranges, ...last.ranges])) return undefined;
  const change = last.flow / peak.flow - 1;
  const combined = uncertaintyOfRatio(last.flow, last.terms, peak.flow, peak.terms, "own");
  return {
    to_lift_m: last.lift,
    change,
    ...(combined && { uncertainty: combined.expanded, budget: budgetOf(combined) }),
    verdict: verdictOn(change, combined, 0, true),
  };
}

/** Whether readings on these ranges of the bench tell nothing of each other. */
export type RangeRule = (ranges: readonly string[]) => boolean;

/**
 * Lifts around the peak that are not clearly below it: outwards from the peak while the shortfall stays within its own ±
 * (no ± known: while there is none).
 *
 *     Q_peak − Q_i ≤ U(Q_peak − Q_i)
 *
 * @param good   good readings, lifts ascending
 * @param meets  whether readings of these ranges tell nothing of each other, see `isAccuracyUnknown`
 * @returns      the range [m]; the peak's own lift at both ends when it stands alone; undefined for an empty sweep, or where the
 *               answer takes readings of two ranges
 * @source       common practice
 * @example      plateau([{ lift: 1, flow: 5, ranges: [""] }, { lift: 2, flow: 7, ranges: [""] }, { lift: 3, flow: 7, ranges: [""] }], () => false) // { from_lift_m: 2, to_lift_m: 3 }
 */
export function plateau(good: readonly MeanReading[], meets: RangeRule): SideFigures["holds"] {
  const peak = peakReading(good);
  if (peak === undefined) return undefined;
  const at = good.indexOf(peak);
  const asked: string[] = [...peak.ranges];
  const isNear = (reading: MeanReading) => {
    asked.push(...reading.ranges);
    return peak.flow - reading.flow <= (uncertaintyOfDifference(peak.terms, reading.terms, "own")?.expanded ?? 0);
  };
  let from = at;
  let to = at;
  while (from > 0 && isNear(good[from - 1]!)) from--;
  while (to + 1 < good.length && isNear(good[to + 1]!)) to++;
  return meets(asked) ? undefined : { from_lift_m: good[from]!.lift, to_lift_m: good[to]!.lift };
}
