import type { BarChart } from "../sheet/content.ts";
import { clampToAxis } from "./axis.ts";
import type { ChartEnv } from "./chart-env.ts";
import { baseRow, errorBarSpan } from "./line-rows.ts";

/** A bar's two edges on the category axis, where category i spans i to i + 1. */
type Slot = { readonly from: number; readonly to: number };

/** Share of a category's width that its bars fill; greatest width of a bar [pt]. */
const FILL = 0.74;
const MAX_BAR_WIDTH = 26;
/** Gap between the bars of one category, as a share of a bar's width. */
const AIR = 0.12;

/** Edges of each bar, groups side by side in order; a category is `step` points wide. */
export function barSlots({ bars, groups, x }: BarChart, step: number): readonly Slot[] {
  const many = Math.max(1, groups.length);
  const room = Math.min(FILL / many, MAX_BAR_WIDTH / step);
  return bars.map(({ category, group }) => {
    const at = x.categories.indexOf(category);
    const place = many === 1 ? 0 : groups.indexOf(group ?? "");
    if (at < 0) throw new RangeError(`a bar's category is not on the axis "${x.title}": ${category}`);
    if (place < 0) throw new RangeError(`a bar's group is not among the chart's groups: ${group}`);
    const middle = at + 0.5 + (place - (many - 1) / 2) * room;
    const half = (room * (many === 1 ? 1 : 1 - AIR)) / 2;
    return { from: middle - half, to: middle + half };
  });
}

/** Rows for the bar shape, without its axes. */
export function barRows({ bars, x, y }: BarChart, slots: readonly Slot[], { colors }: ChartEnv) {
  const errors = bars.flatMap(({ value, plusMinus, hollow }, i) => {
    const { from, to } = slots[i]!;
    return plusMinus !== undefined && plusMinus > 0
      ? [{ x: (from + to) / 2, hollow, ...errorBarSpan(y, value, plusMinus) }]
      : [];
  });
  return {
    bases: [baseRow({ start: 0, end: x.categories.length }, clampToAxis(y, 0), colors.quiet)],
    bars: bars.map(({ value, color, hollow }, i) => ({
      ...slots[i]!,
      zero: 0,
      value,
      color,
      fill: hollow ? colors.paper : color,
      // An outline would enlarge a filled bar.
      width: hollow ? 1 : 0,
    })),
    errors: errors.map(({ x, low, high }) => ({ x, y: low, x2: x, y2: high, color: colors.ink })),
    halos: errors
      .filter(({ hollow }) => !hollow)
      .map(({ x, low, high }) => ({ x, y: low, x2: x, y2: high, color: colors.paper })),
    caps: errors.flatMap(({ x, caps }) => caps.map((y) => ({ x, y, x2: x, y2: y, color: colors.ink }))),
  };
}
