import type { ChangeFigures, ComparedFigures, Verdict } from "../figures/figures.ts";
import type { Side } from "../model/model.ts";
import { type Context, endStages, flowed, wholeChange } from "./context.ts";
import { atLift, sameLift } from "./same-lift.ts";
import { claimable } from "./words/verdicts.ts";

/** One place on the curve where the sheet compares before and after. */
export type ComparedAt = {
  readonly at: ComparedFigures["at"];
  readonly lift: number;
  readonly after: ComparedFigures;
  readonly before?: number;
  readonly change?: ChangeFigures;
  readonly verdict?: Verdict;
  readonly beyondCam: boolean;
};

/** Every place that the job asks for, on one side, with what is known of it. */
export function comparedAt(context: Context, side: Side): readonly ComparedAt[] {
  const { first, last } = endStages(context);
  const after = flowed(last, side);
  if (!after) return [];
  const pair = wholeChange(context, side);
  const cam = context.model.engine?.cams[side]?.netLift;
  return after.compared.map((item) => {
    const change = pair ? atLift(pair.changes, item.lift_m) : undefined;
    const before = flowed(first, side);
    // Peaks of two stages may stand at two lifts: only the same lift is compared.
    const was =
      before?.compared.find((other) => sameLift(other.lift_m, item.lift_m))?.flow_m3_s ??
      (before ? atLift(before.readings, item.lift_m)?.flow_m3_s : undefined) ??
      (change ? item.flow_m3_s - change.change_m3_s : undefined);
    return {
      at: item.at,
      lift: item.lift_m,
      after: item,
      ...(was !== undefined && change ? { before: was } : {}),
      ...(change ? { change, verdict: claimable(change.verdict, change.uncertainty_m3_s) } : {}),
      beyondCam: item.at === "peak" && cam !== undefined && item.lift_m > cam && !sameLift(item.lift_m, cam),
    };
  });
}

/** What leads: flow at the cam's lift when it is known, else low, mid and high; never the peak. */
export function leading(context: Context, side: Side): readonly ComparedAt[] {
  const all = comparedAt(context, side);
  const cam = all.filter(({ at }) => at === "cam");
  if (cam.length > 0) return cam;
  const bands = all.filter(({ at }) => at === "low" || at === "mid" || at === "high");
  return bands.length > 0 ? bands : all.filter(({ at }) => typeof at === "number").slice(-3);
}
