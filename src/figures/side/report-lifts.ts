import type { Model, Side } from "../../model/model.ts";
import type { Metres } from "../../units/quantity.ts";
import { sameLift } from "../../units/same-lift.ts";
import { NAMED_LIFTS } from "../constants.ts";
import type { ComparedFigures } from "../figures.ts";
import { valveDiameter } from "../geometry/port-geometry.ts";
import { sharedLifts } from "../math/lifts.ts";
import type { Sweep } from "../sweep/sweep.ts";

/** A lift of the report; without `lift` it is each stage's own peak. */
export type ReportLift = { readonly at: ComparedFigures["at"]; readonly lift?: Metres };

/**
 * Lifts of the report's comparisons on one side. Low, mid and high are the readings shared by all stages that lie
 * nearest 0.10, 0.18 and 0.25 of the last flowed stage's valve diameter (without a shared reading: that stage's own
 * readings); a name that falls on a lift already named is left out, and so is the cam where it is unknown.
 *
 *     low, mid, high = argmin |L − c D|
 *
 * @param model   report lifts and the cam of that side
 * @param side    intake or exhaust
 * @param sweeps  leading sweep of every stage flowed on that side, oldest first
 * @returns       the lifts in the order of `report.lifts`
 * @source        common practice
 * @example       reportLifts({ report: { lifts: [{ kind: "lift", lift: 0.005 }, { kind: "peak" }] } }, "intake", []) // [{ at: 0.005, lift: 0.005 }, { at: "peak" }]
 */
export function reportLifts(model: Model, side: Side, sweeps: readonly Sweep[]): ReportLift[] {
  const last = sweeps[sweeps.length - 1];
  const port = last?.source.stage.ports[side];
  const diameter = port === undefined ? undefined : valveDiameter(port);
  const lists = sweeps.map((sweep) => sweep.good.map((reading) => reading.lift));
  const shared = sharedLifts(lists);
  const candidates = shared.length > 0 ? shared : (lists[lists.length - 1] ?? []);
  const taken: Metres[] = [];
  const chosen: ReportLift[] = [];
  for (const wanted of model.report.lifts) {
    if (wanted.kind === "lift") chosen.push({ at: wanted.lift, lift: wanted.lift });
    else if (wanted.kind === "peak") chosen.push({ at: "peak" });
    else if (wanted.kind === "cam") {
      const lift = model.engine?.cams[side]?.netLift;
      if (lift !== undefined) chosen.push({ at: "cam", lift });
    } else if (diameter !== undefined && candidates.length > 0) {
      const target = NAMED_LIFTS[wanted.kind] * diameter;
      const lift = candidates.reduce((best, one) => (Math.abs(one - target) < Math.abs(best - target) ? one : best));
      if (taken.some((other) => sameLift(other, lift))) continue;
      taken.push(lift);
      chosen.push({ at: wanted.kind, lift });
    }
  }
  return chosen;
}
