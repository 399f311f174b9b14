import type { ClosingBand } from "../../sheet/content.ts";
import type { FlowBox } from "../flow-box.ts";
import type { PlacedItem } from "../page.ts";
import { ruleAt, textBox } from "../set-text.ts";
import type { PartContext } from "../setting.ts";
import { grid, space, type Type } from "../type-sizes.ts";

/** White inside the ground [pt]. */
const INSET = { x: 12, y: 7 };

/** The shop's sentence in the left half, price and how to order in the right one, on a tint between two rules. */
export function closingBand(part: ClosingBand, ctx: PartContext): readonly FlowBox[] {
  const half = (ctx.width - grid.gutter) / 2;
  const { section, table } = ctx.types;
  const left = { x: INSET.x, width: half - INSET.x };
  const right =
    part.quote === undefined
      ? { x: INSET.x, width: ctx.width - 2 * INSET.x }
      : { x: half + grid.gutter, width: half - INSET.x };
  const items: PlacedItem[] = [];
  let y = 0;
  const add = (text: string, place: typeof left, type: Type, name: string, link?: string) => {
    const tag = { kind: "paragraph", id: `${ctx.id}-${name}` } as const;
    const ink = { color: ctx.colors.ink, tag, ...(link === undefined ? {} : { link }) };
    const frame = textBox([{ text, weight: type.weight }], { ...place, y }, type, ink, ctx);
    items.push(...frame.items);
    y += frame.height;
  };
  const column = (fill: () => void) => {
    y = INSET.y;
    fill();
    return y;
  };
  const quoted = column(() => part.quote !== undefined && add(part.quote, left, section, "quote"));
  const ordered = column(() => {
    if (part.heading !== undefined) add(part.heading, right, section, "price");
    part.lines.forEach(({ text, link }, i) => void add(text, right, table, `line${i}`, link));
  });
  const height = Math.max(quoted, ordered) + INSET.y;
  const { closing, accent } = ctx.colors;
  const ground: PlacedItem = {
    ...{ kind: "box", x: 0, y: 0, width: ctx.width, height, fill: closing },
    ...{ tag: { kind: "artifact" }, block: ctx.block },
  };
  const rules = [0.375, height - 0.375].map((at) => ruleAt(at, 0, ctx.width, 0.75, accent, ctx));
  return [{ height, items: [ground, ...rules, ...items], gap: space.part, tie: false }];
}
