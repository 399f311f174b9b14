import type { Ticks } from "../../sheet/content.ts";
import { type FlowBox, shift } from "../flow-box.ts";
import type { PlacedItem } from "../page.ts";
import type { PartContext } from "../setting.ts";
import { grid, space } from "../type-sizes.ts";
import { caution } from "./caution.ts";

/** Cautions in two columns, divided where both are nearest to one height; read down the first, then the second. */
export function ticks({ cautions }: Ticks, ctx: PartContext): readonly FlowBox[] {
  const width = (ctx.width - grid.gutter) / 2;
  const set = cautions.map((one, i) => stack(caution(one, { ...ctx, width, id: `${ctx.id}-${i}` })));
  const heights = set.map((_, i) => Math.max(total(set.slice(0, i + 1)), total(set.slice(i + 1))));
  const first = heights.indexOf(Math.min(...heights)) + 1;
  const columns = [set.slice(0, first), set.slice(first)];
  const items = columns.flatMap((column, c) =>
    column.flatMap((one, i) => shift(one.items, c * (width + grid.gutter), offset(column, i))),
  );
  return [{ height: Math.max(...columns.map(total)), items, gap: space.part, tie: false }];
}

type Stacked = { readonly height: number; readonly items: readonly PlacedItem[] };

const offset = (set: readonly Stacked[], i: number) => total(set.slice(0, i)) + (i > 0 ? space.caution : 0);
const total = (set: readonly Stacked[]) =>
  set.reduce((sum, { height }) => sum + height, 0) + Math.max(0, set.length - 1) * space.caution;

function stack(boxes: readonly FlowBox[]): Stacked {
  let y = 0;
  const items = boxes.flatMap((box, i) => {
    const top = y + (i > 0 ? box.gap : 0);
    y = top + box.height;
    return shift(box.items, 0, top);
  });
  return { height: y, items };
}
