import { isClear } from "../../model/verdict.ts";
import { sameLift } from "../../units/same-lift.ts";
import { NO_FLOW } from "../constants.ts";
import type { ChangeFigures, PeakChangeFigures, Verdict } from "../figures.ts";
import { valveDiameter } from "../geometry/port-geometry.ts";
import { distinctLifts, sharedLifts } from "../math/lifts.ts";
import { expandedAt, uncertaintyFigures } from "../math/uncertainty.ts";
import { peakReading } from "../side/curve-shape.ts";
import type { ReportLift } from "../side/report-lifts.ts";
import type { Sweep } from "../sweep/sweep.ts";
import { changeAt, type FlowChange, flowChange } from "./flow-change.ts";
import { bandHasChanged, type IsBeyond, liftClaims, sharedLevel } from "./lift-claims.ts";

/** How the changes between two sweeps are judged. */
export type ChangeRules = {
  readonly isBeyond: IsBeyond;
  /** Verdict on a change; undefined where verdicts are withheld. */
  readonly judge: (change: FlowChange) => Verdict | undefined;
};

/**
 * Changes at the lifts that two sweeps measured, and at those of the report. Many lifts are one claim, see `liftClaims`; a lift
 * between readings is clear only where both measured lifts around it are, in its direction.
 *
 *     Q_to(L) − Q_from(L)
 *
 * @param from         the one sweep
 * @param to           the other
 * @param lifts        the report's lifts
 * @param rules        how changes are judged
 * @param meanIsClear  whether the mean has changed clearly
 * @returns            the changes, lifts ascending
 * @source             JCGM 100:2008 (GUM), 5.2; claims in lift-claims.ts
 * @example            liftChanges({ good: [], source: { stage: { ports: {} } } }, { good: [], source: { stage: { ports: {} } } }, [], {}, false) // []
 */
export function liftChanges(
  from: Sweep,
  to: Sweep,
  lifts: readonly ReportLift[],
  rules: ChangeRules,
  meanIsClear: boolean,
): ChangeFigures[] {
  const shared = sharedLifts([from.good.map((reading) => reading.lift), to.good.map((reading) => reading.lift)]);
  const measured = shared.flatMap((lift) => changeAt(from, to, lift) ?? []);
  const port = to.source.stage.ports[to.source.side];
  const diameter = port === undefined ? undefined : valveDiameter(port);
  const hasOverallChange = meanIsClear || bandHasChanged(measured, diameter, rules.isBeyond);
  const claims = liftClaims(measured, hasOverallChange, rules.isBeyond);
  const level = sharedLevel(measured.length);
  const atMeasured = measured.map((one, k): ChangeFigures => {
    const { combined } = one;
    const joint = combined === undefined ? {} : { joint_uncertainty_m3_s: expandedAt(combined, level) };
    return { ...changeFigures(one, onlyIf(claims[k] !== 0, rules.judge(one))), ...joint };
  });
  const wanted = lifts.map(({ lift }) => lift ?? peakReading(to.good)?.lift).filter((lift) => lift !== undefined);
  const between = distinctLifts(wanted).flatMap((lift): ChangeFigures[] => {
    if (shared.some((one) => sameLift(one, lift))) return [];
    const one = changeAt(from, to, lift);
    if (one === undefined) return [];
    const right = measured.findIndex(({ before }) => before.lift > lift);
    const around = right < 1 ? [0] : claims.slice(right - 1, right + 1);
    const stands = around.every((claim) => claim === Math.sign(one.change));
    return [{ ...changeFigures(one, onlyIf(stands, rules.judge(one))), interpolated: true }];
  });
  return [...atMeasured, ...between].sort((a, b) => a.lift_m - b.lift_m);
}

/** A clear verdict only where it is claimed. */
const onlyIf = (isClaimed: boolean, verdict: Verdict | undefined): Verdict | undefined =>
  isClaimed || !isClear(verdict) ? verdict : "within repeatability";

function changeFigures({ before, after, change, combined }: FlowChange, verdict: Verdict | undefined): ChangeFigures {
  return {
    lift_m: before.interpolated ? after.lift : before.lift,
    from_m3_s: before.flow,
    change_m3_s: change,
    change_ratio: change / before.flow,
    ...uncertaintyFigures(combined),
    ...(verdict === undefined ? {} : { verdict }),
  };
}

/**
 * Change from peak to peak, each at its own lift. Its ± is the larger of those of the change at the two peaks' lifts, and of
 * the two peaks' difference where one of these lifts was not measured in both; there it is clear only where the flow at both
 * lifts changed beyond its ± in one direction.
 *
 *     max Q_to − max Q_from
 *
 * @param from   the one sweep
 * @param to     the other
 * @param rules  how changes are judged
 * @returns      the change; undefined where one passes nothing, or was not read as far as the other's peak: its own may lie there
 * @source       JCGM 100:2008 (GUM), 5.2
 * @example      peakChange({ good: [] }, { good: [] }, {}) // undefined
 */
export function peakChange(from: Sweep, to: Sweep, rules: ChangeRules): PeakChangeFigures | undefined {
  const [before, after] = [peakReading(from.good), peakReading(to.good)];
  if (before === undefined || after === undefined || !(before.flow > NO_FLOW)) return undefined;
  const peaks = flowChange(from, { ...before, interpolated: false }, to, { ...after, interpolated: false });
  const atLifts = [before.lift, after.lift].flatMap((lift) => changeAt(from, to, lift) ?? []);
  if (atLifts.length < 2) return undefined;
  const measured = atLifts.filter((one) => !one.before.interpolated && !one.after.interpolated);
  const all = measured.length === 2 ? atLifts : [...atLifts, peaks];
  const unknownAccuracy = peaks.unknownAccuracy || all.some((one) => one.unknownAccuracy);
  const largest = all.reduce<FlowChange["combined"]>(
    (most, { combined }) => ((combined?.expanded ?? 0) > (most?.expanded ?? 0) ? combined : most),
    all[0]?.combined,
  );
  const judged = { ...peaks, combined: unknownAccuracy ? undefined : largest, unknownAccuracy };
  const verdict = rules.judge(judged);
  const isClaimed =
    verdict === undefined || !isClear(verdict) || measured.length === 2 || allChangedOneWay(atLifts, rules);
  const { lift_m: _, ...figures } = changeFigures(judged, isClaimed ? verdict : "within repeatability");
  return { from_lift_m: before.lift, to_lift_m: after.lift, ...figures };
}

/** Whether all changes are beyond their ± in one direction: a finer series of lifts alone finds a higher peak of an unchanged curve. */
function allChangedOneWay(changes: readonly FlowChange[], { isBeyond }: ChangeRules): boolean {
  const sign = Math.sign(changes[0]?.change ?? 0);
  return changes.every(
    ({ change, combined, before }) =>
      combined !== undefined && Math.sign(change) === sign && isBeyond(change, combined.expanded, before.flow),
  );
}
