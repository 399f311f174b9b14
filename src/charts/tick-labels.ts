import type { Axis } from "../sheet/content.ts";
import { fitText } from "./chart-text.ts";

/** Formats an axis number: fixed decimals, a true minus, no minus before zero. */
export function formatTick(value: number, decimals: number): string {
  const digits = Math.abs(value).toFixed(decimals);
  return value < 0 && Number(digits) !== 0 ? `−${digits}` : digits;
}

/** Labels of an axis' ticks. If they would touch, only every second (third, …) is kept, starting with the first. */
export function tickLabels(axis: Axis, room: number, size: (label: string) => number): readonly string[] {
  const labels = axis.ticks.map((tick) => formatTick(tick, axis.decimals));
  const scale = room / (axis.end - axis.start);
  return thinLabels(
    labels,
    axis.ticks.map((tick) => tick * scale),
    size,
  );
}

/** Gap between neighbouring labels [pt]. */
const GAP = 3;

/** Blanks labels centred at ascending places, at a constant step, until none touch. */
export function thinLabels(
  labels: readonly string[],
  places: readonly number[],
  size: (label: string) => number,
): readonly string[] {
  for (let step = 1; step < labels.length; step++) {
    const kept = labels.map((label, i) => (i % step === 0 ? label : ""));
    if (areApart(kept, places, size)) return kept;
  }
  return labels.map((label, i) => (i === 0 ? label : ""));
}

function areApart(labels: readonly string[], places: readonly number[], size: (label: string) => number): boolean {
  let taken = Number.NEGATIVE_INFINITY;
  return labels.every((label, i) => {
    if (label === "") return true;
    const half = size(label) / 2;
    const free = places[i]! - half >= taken;
    taken = places[i]! + half + GAP;
    return free;
  });
}

/**
 * Category names centred under their bars at ascending places of a drawing `end` wide [pt], whole or blank, thinned where
 * they would touch. If none fits, the first is truncated.
 */
export function categoryLabels(
  categories: readonly string[],
  places: readonly number[],
  end: number,
  width: (text: string) => number,
): readonly string[] {
  const room = (i: number) => 2 * Math.min(places[i]!, end - places[i]!);
  const names = categories.map((name) => name.trim().replace(/\s+/gu, " "));
  const whole = names.map((name, i) => (width(name) <= room(i) ? name : ""));
  if (whole.some((name) => name !== "")) return thinLabels(whole, places, width);
  return names.map((name, i) => (i === 0 ? fitText(name, room(0), 1, width).lines[0]! : ""));
}
