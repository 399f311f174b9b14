import type { Signatures } from "../../sheet/content.ts";
import type { FlowBox } from "../flow-box.ts";
import { ruleAt, textBox } from "../set-text.ts";
import type { PartContext } from "../setting.ts";
import { grid, space } from "../type-sizes.ts";

/** Height of the empty place above each line, besides the gap of its row. */
const room = 16;

/** Places to sign, side by side: a line, and under it who signs. */
export function signatures(part: Signatures, ctx: PartContext): readonly FlowBox[] {
  const across = part.labels.length;
  if (across === 0) return [];
  const width = (ctx.width - (across - 1) * grid.gutter) / across;
  const places = part.labels.map(({ role, name }, i) => {
    const x = i * (width + grid.gutter);
    const tag = { kind: "paragraph", id: `${ctx.id}-${i}` } as const;
    const box = (y: number) => ({ x, y: room + 2 + y, width });
    const as = textBox(
      [{ text: role, weight: "regular" }],
      box(0),
      ctx.types.caption,
      { color: ctx.colors.quiet, tag },
      ctx,
    );
    const ink = { color: ctx.colors.ink, tag };
    const whose = textBox([{ text: name ?? "", weight: "regular" }], box(as.height), ctx.types.table, ink, ctx);
    return {
      height: room + 2 + whose.height + as.height,
      items: [ruleAt(room, x, x + width, 0.5, ctx.colors.ink, ctx), ...as.items, ...whose.items],
    };
  });
  return [
    {
      height: Math.max(room + 1, ...places.map((place) => place.height)),
      items: places.flatMap((place) => place.items),
      gap: space.part,
      tie: false,
    },
  ];
}
