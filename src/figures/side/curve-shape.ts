import { NO_FLOW } from "../constants.ts";
import type { SideFigures } from "../figures.ts";
import type { MeanReading } from "../sweep/sweep.ts";
import { uncertaintyOfRatio, uncertaintyOfRise } from "../sweep/sweep-uncertainty.ts";
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
 * @param good  good readings, lifts ascending
 * @returns     the change [1] with its ± and verdict; 0 when the peak is the last lift; undefined for an empty sweep or no flow
 * @source      common practice
 * @example     afterPeak([{ lift: 1, flow: 268 }, { lift: 2, flow: 254 }]).change // -0.05224
 */
export function afterPeak(good: readonly MeanReading[]): SideFigures["after_peak"] {
  const peak = peakReading(good);
  const last = good[good.length - 1];
  if (peak === undefined || last === undefined || !(peak.flow > NO_FLOW)) return undefined;
  if (peak === last) return { to_lift_m: last.lift, change: 0, verdict: "within repeatability" };
  const change = last.flow / peak.flow - 1;
  const combined = uncertaintyOfRatio(last.flow, last.terms, peak.flow, peak.terms);
  return {
    to_lift_m: last.lift,
    change,
    ...(combined === undefined ? {} : { uncertainty: combined.expanded }),
    verdict: verdictOn(change, combined, 0, true),
  };
}

/**
 * Lifts around the peak that are not clearly below it: outwards from the peak while the shortfall stays within its own ±
 * (no ± known: while there is none).
 *
 *     Q_peak − Q_i ≤ U(Q_peak − Q_i)
 *
 * @param good  good readings, lifts ascending
 * @returns     the range [m]; the peak's own lift at both ends when it stands alone; undefined for an empty sweep
 * @source      common practice
 * @example     plateau([{ lift: 1, flow: 5 }, { lift: 2, flow: 7 }, { lift: 3, flow: 7 }]) // { from_lift_m: 2, to_lift_m: 3 }
 */
export function plateau(good: readonly MeanReading[]): SideFigures["holds"] {
  const peak = peakReading(good);
  if (peak === undefined) return undefined;
  const near = (reading: MeanReading) =>
    peak.flow - reading.flow <= (reading === peak ? 0 : (uncertaintyOfRise(reading, peak)?.expanded ?? 0));
  const at = good.indexOf(peak);
  let from = at;
  let to = at;
  while (from > 0 && near(good[from - 1]!)) from--;
  while (to + 1 < good.length && near(good[to + 1]!)) to++;
  return { from_lift_m: good[from]!.lift, to_lift_m: good[to]!.lift };
}

/**
 * Flat spots: neighbouring lifts between which flow rises by less than the ± of that rise (no ± known: does not rise), with a
 * higher reading later on. Where a ± is known the later reading must be higher by more than it, else the whole gentle
 * end of a good curve would count.
 *
 *     Q_{k+1} − Q_k < U, and some later Q_j clearly above both
 *
 * @param good  good readings, lifts ascending
 * @returns     the pairs, ascending; none for a curve that rises throughout or only falls
 * @source      common practice
 * @example     flatSpots([{ lift: 0.4, flow: 236 }, { lift: 0.5, flow: 262 }, { lift: 0.6, flow: 262 }, { lift: 1, flow: 272 }]) // [{ from_lift_m: 0.5, to_lift_m: 0.6 }]
 */
export function flatSpots(good: readonly MeanReading[]): SideFigures["flat_spots"] {
  return good.slice(1).flatMap((right, k) => {
    const left = good[k]!;
    const rise = right.flow - left.flow;
    const combined = uncertaintyOfRise(left, right);
    const flat = combined === undefined ? rise <= 0 : rise < combined.expanded;
    const top = rise > 0 ? right : left;
    const resumes = good
      .slice(k + 2)
      .some((later) => later.flow - top.flow > (uncertaintyOfRise(top, later)?.expanded ?? 0));
    return flat && resumes ? [{ from_lift_m: left.lift, to_lift_m: right.lift }] : [];
  });
}
