import type { SideFigures } from "../../figures/figures.ts";
import type { Display } from "../display.ts";
import { percent } from "../percent.ts";
import { joinWords } from "./join-words.ts";
import { claimable } from "./verdict-words.ts";

/** Above this conversion in pressure nothing is said of a curve's shape: the square-root rule bends it. */
const LARGEST_CONVERSION = 1.5;

/** What the curve does past its peak: falls away, or holds. */
export function afterPeak(side: string, figures: SideFigures, display: Display): string | undefined {
  if (!shapeMayBeRead(figures) || !figures.peak) return undefined;
  const { after_peak: after, holds, peak } = figures;
  if (after && claimable(after.verdict, after.uncertainty) === "clear loss") {
    const last = display.full("lift", after.to_lift_m);
    return `${side} falls away past ${display.full("lift", peak.lift_m)}: ${percent(Math.abs(after.change))} down at ${last}.`;
  }
  if (holds && holds.to_lift_m > holds.from_lift_m) {
    return `${side} holds from ${display.digits("lift", holds.from_lift_m)} to ${display.full("lift", holds.to_lift_m)}.`;
  }
  return undefined;
}

/** Lifts between which flow stands still, with more to come above them. */
export function flatSpots(side: string, figures: SideFigures, display: Display): string | undefined {
  if (!shapeMayBeRead(figures) || figures.flat_spots.length === 0) return undefined;
  const spots = figures.flat_spots
    .slice(0, 3)
    .map((spot) => `${display.digits("lift", spot.from_lift_m)} to ${display.full("lift", spot.to_lift_m)}`);
  return `${side} has ${spots.length === 1 ? "a flat spot" : "flat spots"} at ${joinWords(spots)}.`;
}

const shapeMayBeRead = (figures: SideFigures) => {
  const converted = figures.conversion_pressure_ratio ?? 1;
  return Math.max(converted, 1 / converted) <= LARGEST_CONVERSION;
};
