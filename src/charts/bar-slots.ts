import type { BarChart } from "../sheet/content.ts";

/** A bar's two edges on a line on which category i fills i to i + 1. */
export type Slot = { readonly from: number; readonly to: number };

/** Share of a category's width that its bars fill, and the widest a bar gets [pt]. */
const FILL = 0.74;
const WIDEST = 26;
/** Air between the bars of one category, as a share of a bar's room. */
const AIR = 0.12;

/** Where each bar stands, in a category of `step` points: the groups side by side, in their order. */
export function barSlots({ bars, groups, x }: BarChart, step: number): readonly Slot[] {
  const many = Math.max(1, groups.length);
  const room = Math.min(FILL / many, WIDEST / step);
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
