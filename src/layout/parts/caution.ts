import type { Caution } from "../../sheet/content.ts";
import type { FlowBox } from "../flow-box.ts";
import { lineAt } from "../set-text.ts";
import type { PartContext } from "../setting.ts";
import { space, types } from "../type-sizes.ts";
import { wrap } from "../wrap.ts";

const inset = 10;

/** A caution: a bar at the left, the signal word semibold, never smaller than 9 pt, never divided. */
export function caution(part: Caution, ctx: PartContext): readonly FlowBox[] {
  const phrases = [
    { text: `${part.signal}:`, weight: "semibold" },
    { text: part.text, weight: "regular" },
  ] as const;
  const ink = { color: ctx.colors.ink, tag: { kind: "paragraph", id: ctx.id } } as const;
  const width = part.signal === "Caution" ? 2.5 : 1;
  const color = part.signal === "Caution" ? ctx.colors.ink : ctx.colors.rule;
  const lines = wrap(phrases, types.table.size, ctx.width - inset, ctx.measure);
  return lines.map((line, i) => ({
    height: types.table.lead,
    items: [
      {
        kind: "box",
        x: 0,
        y: 0,
        width,
        height: types.table.lead,
        fill: color,
        tag: { kind: "artifact" },
        block: ctx.block,
      } as const,
      ...lineAt(line, inset, 0, types.table, ink, ctx),
    ],
    gap: i === 0 ? space.caution : 0,
    tie: i < lines.length - 1,
  }));
}
