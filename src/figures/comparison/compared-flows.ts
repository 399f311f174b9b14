import type { CubicMetresPerSecond, Metres } from "../../units/quantity.ts";
import { sameLift } from "../../units/same-lift.ts";
import type { ComparedFigures } from "../figures.ts";
import { curveAt } from "../math/pchip.ts";
import { combine, type Term, uncertaintyFigures } from "../math/uncertainty.ts";
import { peakReading } from "../side/curve-shape.ts";
import type { ReportLift } from "../side/report-lifts.ts";
import type { Sweep } from "../sweep/sweep.ts";
import { curveTerms } from "../sweep/sweep-uncertainty.ts";

/** A flow at some lift of a sweep, measured or between readings. */
export type FlowAt = {
  readonly lift: Metres;
  readonly flow: CubicMetresPerSecond;
  readonly terms?: readonly Term[];
  /** Ranges of the bench on which the reading, or its neighbours, were taken. */
  readonly ranges: readonly string[];
  readonly interpolated: boolean;
};

/**
 * Flow of a sweep at a lift: the reading there, else the interpolant's value.
 *
 *     Q(L)
 *
 * @param sweep  the sweep
 * @param lift   L [m]
 * @returns      the flow with its uncertainty budget where known, or undefined beyond the last reading: nothing is extrapolated
 * @source       Fritsch & Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300–304
 * @example      flowAt({ good: [{ lift: 0.01, flow: 0.05, ranges: ["1"] }] }, 0.01) // { lift: 0.01, flow: 0.05, ranges: ["1"], interpolated: false }
 */
export function flowAt(sweep: Pick<Sweep, "good" | "curve">, lift: Metres): FlowAt | undefined {
  const measured = sweep.good.find((reading) => sameLift(reading.lift, lift));
  if (measured !== undefined) {
    const { flow, terms, ranges } = measured;
    return { lift: measured.lift, flow, ...(terms === undefined ? {} : { terms }), ranges, interpolated: false };
  }
  const flow = sweep.curve === undefined ? undefined : curveAt(sweep.curve, lift);
  if (flow === undefined) return undefined;
  const terms = curveTerms(sweep, (curve) => curveAt(curve, lift));
  const right = sweep.good.findIndex((reading) => reading.lift > lift);
  const around = sweep.good.slice(Math.max(0, right - 1), right + 1);
  const ranges = [...new Set(around.flatMap((reading) => reading.ranges))];
  return { lift, flow, ...(terms === undefined ? {} : { terms }), ranges, interpolated: true };
}

/**
 * Flow at each of the report's lifts.
 *
 *     Q(L) at the report's lifts
 *
 * @param sweep  the stage's leading sweep
 * @param lifts  the report's lifts, see `reportLifts`
 * @returns      one entry a lift that the readings reach; interpolated ones marked
 * @source       Fritsch & Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300–304
 * @example      comparedFlows({ good: [{ lift: 0.01, flow: 0.05 }] }, [{ at: "peak" }]) // [{ at: "peak", lift_m: 0.01, flow_m3_s: 0.05 }]
 */
export function comparedFlows(sweep: Pick<Sweep, "good" | "curve">, lifts: readonly ReportLift[]): ComparedFigures[] {
  return lifts.flatMap(({ at, lift = peakReading(sweep.good)?.lift }): ComparedFigures[] => {
    const found = lift === undefined ? undefined : flowAt(sweep, lift);
    if (found === undefined) return [];
    return [
      {
        at,
        lift_m: found.lift,
        flow_m3_s: found.flow,
        ...uncertaintyFigures(found.terms && combine(found.terms)),
        ...(found.interpolated ? { interpolated: true as const } : {}),
      },
    ];
  });
}
