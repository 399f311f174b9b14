import type { Axis } from "../sheet/content.ts";

/** Throws unless an axis runs upwards between two numbers and has its ticks on it. */
export function checkAxis(axis: Axis): void {
  const { start, end, ticks } = axis;
  if (!(Number.isFinite(start) && Number.isFinite(end) && end > start))
    throw new RangeError(`the axis "${axis.title}" must run upwards: ${start} to ${end}`);
  for (const tick of ticks)
    if (!onAxis(axis, tick)) throw new RangeError(`the axis "${axis.title}" has a tick outside it: ${tick}`);
}

/** Throws unless a reading lies on the axis: one that is not drawn would be hidden from the reader. */
export function checkOnAxis(axis: Axis, value: number, what: string): void {
  if (!onAxis(axis, value)) throw new RangeError(`${what} is outside the axis "${axis.title}": ${value}`);
}

/** Whether a value lies on the axis, but for rounding. */
export function onAxis({ start, end }: Axis, value: number): boolean {
  const slack = (end - start) * 1e-9;
  return value >= start - slack && value <= end + slack;
}

/** The value, or the axis' end that it lies beyond. */
export const held = ({ start, end }: Axis, value: number) => Math.max(start, Math.min(value, end));

/** Places on a plot: a value's share of the axis, from the left and from the bottom. */
export const along = ({ start, end }: Axis, value: number) => (value - start) / (end - start);
