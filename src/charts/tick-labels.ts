import type { Axis } from "../sheet/content.ts";
import { fitText } from "./fit-text.ts";

/** An axis number as printed: decimals as asked, a true minus, never a minus before zero. */
export function tickLabel(value: number, decimals: number): string {
  const digits = Math.abs(value).toFixed(decimals);
  return value < 0 && Number(digits) !== 0 ? `−${digits}` : digits;
}

/** The axis' numbers; those that would touch are blanked, every second, third … one staying, counted from the first. */
export function tickLabels(axis: Axis, room: number, size: (label: string) => number): readonly string[] {
  const labels = axis.ticks.map((tick) => tickLabel(tick, axis.decimals));
  const scale = room / (axis.end - axis.start);
  return thinned(
    labels,
    axis.ticks.map((tick) => tick * scale),
    size,
  );
}

/** Air between neighbouring labels [pt]. */
const GAP = 3;

/** Labels centred at ascending places, blanked at a steady step until none touch. */
export function thinned(
  labels: readonly string[],
  places: readonly number[],
  size: (label: string) => number,
): readonly string[] {
  for (let step = 1; step < labels.length; step++) {
    const kept = labels.map((label, i) => (i % step === 0 ? label : ""));
    if (fits(kept, places, size)) return kept;
  }
  return labels.map((label, i) => (i === 0 ? label : ""));
}

function fits(labels: readonly string[], places: readonly number[], size: (label: string) => number): boolean {
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
 * Names of categories as they stand under their bars, centred at ascending places of a drawing `end` wide [pt]: whole or
 * blank, every second, third … one staying where they would touch. Only where none fits at all is the first one cut.
 */
export function bandNames(
  categories: readonly string[],
  places: readonly number[],
  end: number,
  width: (text: string) => number,
): readonly string[] {
  const room = (i: number) => 2 * Math.min(places[i]!, end - places[i]!);
  const names = categories.map((name) => name.trim().replace(/\s+/gu, " "));
  const whole = names.map((name, i) => (width(name) <= room(i) ? name : ""));
  if (whole.some((name) => name !== "")) return thinned(whole, places, width);
  return names.map((name, i) => (i === 0 ? fitText(name, room(0), 1, width).lines[0]! : ""));
}
