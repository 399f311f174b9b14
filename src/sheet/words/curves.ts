import type { Comparison, SideFigures, StageFigures } from "../../figures/figures.ts";
import type { Side } from "../../model/model.ts";
import { isClear } from "../../model/verdict.ts";
import { type Display, formatPercent } from "../display.ts";
import { capitalize, joinWords } from "./text.ts";
import { claimableVerdict } from "./verdicts.ts";

type ShareFigures = Pick<StageFigures, "exhaust_to_intake"> & {
  readonly [Key in Side]?: Pick<SideFigures, "ports">;
};

/** A peak never stands without its lift, and says when no cam of this engine gets there. */
export function peakWords(peak: { side: string; flow: string; lift: string; beyondCam: boolean }): string {
  return `${peak.side} peak: ${peak.flow} at ${peak.lift}${peak.beyondCam ? ", beyond your cam" : ""}.`;
}

/** What the curve does past its peak: falls away, or holds. */
export function afterPeakWords(side: string, figures: SideFigures, display: Display): string | undefined {
  if (!figures.peak) return undefined;
  const { after_peak: after, holds, peak } = figures;
  if (after && claimableVerdict(after.verdict, after.uncertainty) === "clear loss") {
    const last = display.full("lift", after.to_lift_m);
    return `${side} falls away past ${display.full("lift", peak.lift_m)}: ${formatPercent(Math.abs(after.change))} down at ${last}.`;
  }
  if (holds && holds.to_lift_m > holds.from_lift_m) {
    return `${side} holds from ${display.digits("lift", holds.from_lift_m)} to ${display.full("lift", holds.to_lift_m)}.`;
  }
  return undefined;
}

/** Lifts between which flow stands still, with more to come above them. */
export function flatSpotWords(side: string, figures: SideFigures, display: Display): string | undefined {
  const { flat_spots: all = [] } = figures;
  if (all.length === 0) return undefined;
  const spots = all
    .slice(0, 3)
    .map((spot) => `${display.digits("lift", spot.from_lift_m)} to ${display.full("lift", spot.to_lift_m)}`);
  return `${side} has ${spots.length === 1 ? "a flat spot" : "flat spots"} at ${joinWords(spots)}.`;
}

/** Where the curves of two stages cross, and which is higher on each side of a single crossing. */
export function crossoverWords(pair: Comparison, display: Display): string | undefined {
  const [first] = pair.crossovers_m;
  if (first === undefined) return undefined;
  const lifts = joinWords(pair.crossovers_m.map((lift) => display.full("lift", lift)));
  const said = `${capitalize(pair.side)} curves cross at ${lifts}.`;
  if (pair.crossovers_m.length > 1) return said;
  const clear = pair.changes.filter((change) => isClear(claimableVerdict(change.verdict, change.uncertainty_m3_s)));
  const above = clear.findLast((change) => change.lift_m > first);
  if (!above) return said;
  const [high, low] = above.change_m3_s > 0 ? ["above", "below"] : ["below", "above"];
  return `${said} The ${endLabel(pair.to)} port flows more ${high} that lift and less ${low} it.`;
}

const endLabel = (end: Comparison["to"]) => (end.label ?? end.stage).toLowerCase();

/** Exhaust flow as a percentage of intake flow, lowest to highest over the lifts of both sides; per cylinder, where a side has several ports. */
export function exhaustShareWords(
  { exhaust_to_intake: shares, intake, exhaust }: ShareFigures,
  display: Display,
): string | undefined {
  const [first] = shares;
  if (!first) return undefined;
  const ratios = shares.map((share) => share.ratio);
  const low = formatPercent(Math.min(...ratios), 0);
  const high = formatPercent(Math.max(...ratios), 0);
  const what = `Exhaust as share of intake${(intake?.ports ?? 1) > 1 || (exhaust?.ports ?? 1) > 1 ? ", of one cylinder" : ""}`;
  const range = `${display.digits("lift", first.lift_m)} to ${display.full("lift", (shares.at(-1) ?? first).lift_m)}`;
  if (shares.length === 1) return `${what}: ${high} at ${display.full("lift", first.lift_m)}.`;
  return low === high ? `${what}: ${high} from ${range}.` : `${what}: ${low} to ${high} from ${range}.`;
}
