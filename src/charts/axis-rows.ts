import type { Axis } from "../sheet/content.ts";
import type { ChartEnv } from "./chart-env.ts";

/** Where a chart's two axes have ticks, and what stands at them; an empty label is none. */
export type AxisTicks = {
  readonly x: { readonly start: number; readonly end: number };
  readonly y: Axis;
  readonly xTicks: readonly number[];
  readonly xLabels: readonly string[];
  readonly yLabels: readonly string[];
};

/** The rows that fill a shape's axes: lines across at the ticks of y, ticks of x, the numbers of both. */
export function axisRows({ x, y, xTicks, xLabels, yLabels }: AxisTicks, { colors: { grid, quiet } }: ChartEnv) {
  return {
    grid: y.ticks.map((at) => ({ x: x.start, y: at, x2: x.end, y2: at, color: grid })),
    ticks: xTicks.map((at) => ({ x: at, y: y.start, x2: at, y2: y.start, color: quiet })),
    xNumbers: xTicks.flatMap((at, i) => (xLabels[i] ? [{ x: at, y: y.start, label: xLabels[i], color: quiet }] : [])),
    yNumbers: y.ticks.flatMap((at, i) => (yLabels[i] ? [{ x: x.start, y: at, label: yLabels[i], color: quiet }] : [])),
  };
}
