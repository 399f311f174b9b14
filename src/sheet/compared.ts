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
  /** Of the flow itself. */
  readonly uncertainty?: number;
  readonly interpolated: boolean;
  readonly before?: number;
  /** Of a peak that stood at another lift before. */
  readonly liftBefore?: number;
  readonly change?: Change;
  readonly verdict?: Verdict;
  readonly beyondCam: boolean;
};

/** Every comparison point of the job on one side, with change and verdict where known. */
export function comparisonPoints(context: Context, side: Side): readonly ComparisonPoint[] {
  const { first, last } = endStages(context);
  const after = flowedFigures(last, side);
  if (!after) return [];
  const before = flowedFigures(first, side);
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
    if (item.at === "peak" && pair?.peak_change) {
      const was = before?.peak?.flow_m3_s;
      return { ...plain, ...peakPoint(pair.peak_change), ...(was === undefined ? {} : { before: was }), beyondCam };
    }
    const change = item.at === "peak" || !pair ? undefined : findAtLift(pair.changes, item.lift_m);
    if (!change) return { ...plain, beyondCam };
    const was =
      before?.compared.find((other) => other.at !== "peak" && sameLift(other.lift_m, item.lift_m))?.flow_m3_s ??
      (before ? findAtLift(before.readings, item.lift_m)?.flow_m3_s : undefined) ??
      item.flow_m3_s - change.change_m3_s;
    return { ...plain, before: was, ...claim(change), beyondCam };
  });
}

/** Where this head is compared with another: the named lifts, then the peaks. */
export function otherHeadPoints(context: Context, pair: Comparison): readonly ComparisonPoint[] {
  const plain = { interpolated: false, beyondCam: false };
  const named = (pair.compared ?? []).flatMap(({ at, lift_m }): ComparisonPoint[] => {
    const change = findAtLift(pair.changes, lift_m);
    return change ? [{ ...plain, at, lift: lift_m, ...flowsOf(context, pair, change, lift_m), ...claim(change) }] : [];
  });
  const { peak_change: peak } = pair;
  if (!peak) return named;
  const beyondCam = isBeyondLift(peak.to_lift_m, camLift(context, pair.side));
  const flows = flowsOf(context, pair, peak, peak.to_lift_m);
  return [...named, { ...plain, at: "peak", ...flows, ...peakPoint(peak), beyondCam }];
}

const claim = (change: Change) => ({ change, verdict: claimableVerdict(change.verdict, change.uncertainty_m3_s) });

const peakPoint = (change: PeakChangeFigures) => ({
  lift: change.to_lift_m,
  ...(sameLift(change.from_lift_m, change.to_lift_m) ? {} : { liftBefore: change.from_lift_m }),
  ...claim(change),
});

/** The two flows of a change: of the ports that both heads have, which its size and ratio give, but for no change at all. */
function flowsOf(context: Context, { side }: Comparison, change: Change, lift: number) {
  const { change_m3_s: difference, change_ratio: ratio } = change;
  if (ratio !== 0) return { before: difference / ratio, flow: difference / ratio + difference };
  const { readings = [], compared = [] } = flowedFigures(endStages(context).last, side) ?? {};
  const flow = findAtLift<{ lift_m: number; flow_m3_s: number }>([...compared, ...readings], lift)?.flow_m3_s ?? 0;
  return { before: flow, flow };
}

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
  const reading = flowedFigures(endStages(context).last, side)?.readings.findLast(({ doubtful }) => !doubtful);
  if (!reading) return undefined;
  const { lift_m: lift, flow_m3_s: flow, uncertainty_m3_s: uncertainty } = reading;
  const known = uncertainty === undefined ? {} : { uncertainty };
  return { at: lift, lift, flow, ...known, interpolated: false, beyondCam: false };
}
