import type { BarChart } from "../sheet/content.ts";
import type { Slot } from "./bar-slots.ts";
import type { ChartEnv } from "./chart-env.ts";
import { held } from "./check-axis.ts";
import { baseRow, errorOf } from "./line-rows.ts";

/** The rows that fill the bar shape, but for its axes. */
export function barRows({ bars, x, y }: BarChart, slots: readonly Slot[], { colors }: ChartEnv) {
  const errors = bars.flatMap(({ value, plusMinus, hollow }, i) => {
    const { from, to } = slots[i]!;
    return plusMinus !== undefined && plusMinus > 0
      ? [{ x: (from + to) / 2, hollow, ...errorOf(y, value, plusMinus) }]
      : [];
  });
  return {
    bases: [baseRow({ start: 0, end: x.categories.length }, held(y, 0), colors.quiet)],
    bars: bars.map(({ value, color, hollow }, i) => ({
      ...slots[i]!,
      zero: 0,
      value,
      color,
      fill: hollow ? colors.paper : color,
      // An outline would add to what is filled.
      width: hollow ? 1 : 0,
    })),
    errors: errors.map(({ x, low, high }) => ({ x, y: low, x2: x, y2: high, color: colors.ink })),
    halos: errors
      .filter(({ hollow }) => !hollow)
      .map(({ x, low, high }) => ({ x, y: low, x2: x, y2: high, color: colors.paper })),
    caps: errors.flatMap(({ x, caps }) => caps.map((y) => ({ x, y, x2: x, y2: y, color: colors.ink }))),
  };
}
