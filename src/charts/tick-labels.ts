import type { Axis } from "../sheet/content.ts";

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
