import type { Axis } from "../sheet/content.ts";
import type { ChartEnv } from "./chart-env.ts";

/** Throws unless an axis runs upwards between two numbers and has its ticks on it. */
export function checkAxis(axis: Axis): void {
  const { start, end, ticks } = axis;
  if (!(Number.isFinite(start) && Number.isFinite(end) && end > start))
    throw new RangeError(`the axis "${axis.title}" must run upwards: ${start} to ${end}`);
  for (const tick of ticks)
    if (!isOnAxis(axis, tick)) throw new RangeError(`the axis "${axis.title}" has a tick outside it: ${tick}`);
}

/** Throws unless a value lies on the axis: a value outside would be cut off. */
export function checkValueOnAxis(axis: Axis, value: number, what: string): void {
  if (!isOnAxis(axis, value)) throw new RangeError(`${what} is outside the axis "${axis.title}": ${value}`);
}

/** Whether a value lies on the axis, with tolerance for rounding. */
export function isOnAxis({ start, end }: Axis, value: number): boolean {
  const slack = (end - start) * 1e-9;
  return value >= start - slack && value <= end + slack;
}

/** The value limited to the axis. */
export const clampToAxis = ({ start, end }: Axis, value: number) => Math.max(start, Math.min(value, end));

/** Position of a value as a share of the axis, from its start. */
export const axisShare = ({ start, end }: Axis, value: number) => (value - start) / (end - start);

/** Ticks of a chart's two axes and their labels; an empty label is not drawn. */
type AxisTicks = {
  readonly x: { readonly start: number; readonly end: number };
  readonly y: Axis;
  readonly xTicks: readonly number[];
  readonly xLabels: readonly string[];
  readonly yLabels: readonly string[];
};

/** Rows for a shape's axes: grid lines at the y ticks, x ticks, the numbers of both. */
export function axisRows({ x, y, xTicks, xLabels, yLabels }: AxisTicks, { colors: { grid, quiet } }: ChartEnv) {
  return {
    grid: y.ticks.map((at) => ({ x: x.start, y: at, x2: x.end, y2: at, color: grid })),
    ticks: xTicks.map((at) => ({ x: at, y: y.start, x2: at, y2: y.start, color: quiet })),
    xNumbers: xTicks.flatMap((at, i) => (xLabels[i] ? [{ x: at, y: y.start, label: xLabels[i], color: quiet }] : [])),
    yNumbers: y.ticks.flatMap((at, i) => (yLabels[i] ? [{ x: x.start, y: at, label: yLabels[i], color: quiet }] : [])),
  };
}
