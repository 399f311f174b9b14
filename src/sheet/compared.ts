import type { ChangeFigures, ComparedFigures, Comparison, PeakChangeFigures, Verdict } from "../figures/figures.ts";
import type { Side } from "../model/model.ts";
import { sameLift } from "../units/same-lift.ts";
import { type Context, camLift, endStages, flowedFigures, overallComparison } from "./context.ts";
import { findAtLift, isBeyondLift } from "./lifts.ts";
import { claimableVerdict } from "./words/verdicts.ts";

type Change = ChangeFigures | PeakChangeFigures;

/** One place on the curve where the sheet compares before and after, or this head with another. */
export type ComparisonPoint = {
  readonly at: ComparedFigures["at"];
  readonly lift: number;
  readonly flow: number;
  /** ± of the flow, not of its change. */
  readonly uncertainty?: number;
  readonly interpolated: boolean;
  readonly before?: number;
  /** Lift of the earlier peak, if it stood at another. */
  readonly liftBefore?: number;
  readonly change?: Change;
  readonly verdict?: Verdict;
  readonly beyondCam: boolean;
};

/** Every comparison point of the job on one side, with change and verdict where known. */
export function comparisonPoints(context: Context, side: Side): readonly ComparisonPoint[] {
  const { last } = endStages(context);
  const after = flowedFigures(last, side);
  if (!after) return [];
  const pair = overallComparison(context, side);
  return after.compared.map((item): ComparisonPoint => {
    const known = item.uncertainty_m3_s === undefined ? {} : { uncertainty: item.uncertainty_m3_s };
    const plain = {
      at: item.at,
      lift: item.lift_m,
      flow: item.flow_m3_s,
      interpolated: item.interpolated === true,
      ...known,
    };
    const beyondCam = item.at === "peak" && isBeyondLift(item.lift_m, camLift(context, side));
    if (item.at === "peak" && pair?.peak_change) return { ...plain, ...peakPoint(pair.peak_change), beyondCam };
    const change = item.at === "peak" || !pair ? undefined : findAtLift(pair.changes, item.lift_m);
    return { ...plain, ...(change ? claim(change) : {}), beyondCam };
  });
}

/** Where this head is compared with another: the named lifts, then the peaks. */
export function otherHeadPoints(context: Context, pair: Comparison): readonly ComparisonPoint[] {
  const plain = { interpolated: false, beyondCam: false };
  const named = (pair.compared ?? []).flatMap(({ at, lift_m }): ComparisonPoint[] => {
    const change = findAtLift(pair.changes, lift_m);
    return change ? [{ ...plain, at, lift: lift_m, ...claim(change) }] : [];
  });
  const { peak_change: peak } = pair;
  if (!peak) return named;
  const beyondCam = isBeyondLift(peak.to_lift_m, camLift(context, pair.side));
  return [...named, { ...plain, at: "peak", ...peakPoint(peak), beyondCam }];
}

/** A change with the two flows between which it lies: of the cylinders compared, not of all that were flowed. */
const claim = (change: Change) => ({
  before: change.from_m3_s,
  flow: change.from_m3_s + change.change_m3_s,
  change,
  verdict: claimableVerdict(change.verdict, change.uncertainty_m3_s),
});

const peakPoint = (change: PeakChangeFigures) => ({
  lift: change.to_lift_m,
  ...(sameLift(change.from_lift_m, change.to_lift_m) ? {} : { liftBefore: change.from_lift_m }),
  ...claim(change),
});

/** Points for the headline: the cam's lift when known, else low, mid and high; never the peak. */
export function headlinePoints(context: Context, side: Side): readonly ComparisonPoint[] {
  const all = comparisonPoints(context, side);
  const cam = all.filter(({ at }) => at === "cam");
  if (cam.length > 0) return cam;
  const bands = all.filter(({ at }) => at === "low" || at === "mid" || at === "high");
  return bands.length > 0 ? bands : all.filter(({ at }) => typeof at === "number").slice(-3);
}

/** The flow of which the page speaks: at the cam's lift, at high lift, else the highest lift read. */
export function leadingPoint(context: Context, side: Side): ComparisonPoint | undefined {
  const named = headlinePoints(context, side).at(-1);
  if (named) return named;
  const reading = flowedFigures(endStages(context).last, side)?.readings.findLast(
    ({ doubtful, partial }) => !doubtful && !partial,
  );
  if (!reading) return undefined;
  const { lift_m: lift, flow_m3_s: flow, uncertainty_m3_s: uncertainty } = reading;
  const known = uncertainty === undefined ? {} : { uncertainty };
  const change = findAtLift(overallComparison(context, side)?.changes ?? [], lift);
  return { at: lift, lift, flow, ...known, ...(change && claim(change)), interpolated: false, beyondCam: false };
}
