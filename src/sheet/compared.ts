import type { ChangeFigures, ComparedFigures, Verdict } from "../figures/figures.ts";
import type { Side } from "../model/model.ts";
import { type Context, endStages, flowedFigures, overallComparison } from "./context.ts";
import { findAtLift, isSameLift } from "./same-lift.ts";
import { claimableVerdict } from "./words/verdicts.ts";

/** One place on the curve where the sheet compares before and after. */
export type ComparisonPoint = {
  readonly at: ComparedFigures["at"];
  readonly lift: number;
  readonly after: ComparedFigures;
  readonly before?: number;
  readonly change?: ChangeFigures;
  readonly verdict?: Verdict;
  readonly beyondCam: boolean;
};

/** Every comparison point of the job on one side, with change and verdict where known. */
export function comparisonPoints(context: Context, side: Side): readonly ComparisonPoint[] {
  const { first, last } = endStages(context);
  const after = flowedFigures(last, side);
  if (!after) return [];
  const pair = overallComparison(context, side);
  const cam = context.model.engine?.cams[side]?.netLift;
  return after.compared.map((item) => {
    const change = pair ? findAtLift(pair.changes, item.lift_m) : undefined;
    const before = flowedFigures(first, side);
    // Peaks of two stages may stand at two lifts: only the same lift is compared.
    const was =
      before?.compared.find((other) => isSameLift(other.lift_m, item.lift_m))?.flow_m3_s ??
      (before ? findAtLift(before.readings, item.lift_m)?.flow_m3_s : undefined) ??
      (change ? item.flow_m3_s - change.change_m3_s : undefined);
    return {
      at: item.at,
      lift: item.lift_m,
      after: item,
      ...(was !== undefined && change ? { before: was } : {}),
      ...(change ? { change, verdict: claimableVerdict(change.verdict, change.uncertainty_m3_s) } : {}),
      beyondCam: item.at === "peak" && cam !== undefined && item.lift_m > cam && !isSameLift(item.lift_m, cam),
    };
  });
}

/** Points for the headline: the cam's lift when known, else low, mid and high; never the peak. */
export function headlinePoints(context: Context, side: Side): readonly ComparisonPoint[] {
  const all = comparisonPoints(context, side);
  const cam = all.filter(({ at }) => at === "cam");
  if (cam.length > 0) return cam;
  const bands = all.filter(({ at }) => at === "low" || at === "mid" || at === "high");
  return bands.length > 0 ? bands : all.filter(({ at }) => typeof at === "number").slice(-3);
}
