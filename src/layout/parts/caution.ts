import type { PathCommand } from "../../charts/drawing.ts";
import type { Caution } from "../../sheet/content.ts";
import type { FlowBox } from "../flow-box.ts";
import type { PlacedItem } from "../page.ts";
import { baselineOffset, lineAt } from "../set-text.ts";
import type { PartContext } from "../setting.ts";
import { space } from "../type-sizes.ts";
import { LAST_LINE, type WrappedLine, wrapBalanced } from "../wrap.ts";

const inset = 10;
/** A box to tick: its side, and the text's distance from the edge [pt]. */
const tick = { side: 8, inset: 15 };

/** A caution: a bar at the left or a box to tick, the signal word semibold, never smaller than 9 pt, never divided. */
export function caution(part: Caution, ctx: PartContext): readonly FlowBox[] {
  const phrases = [
    { text: `${part.signal}:`, weight: "semibold" },
    { text: part.text, weight: "regular" },
  ] as const;
  const ink = { color: ctx.colors.ink, tag: { kind: "paragraph", id: ctx.id } } as const;
  const linesIn = (room: number) => wrapBalanced(phrases, ctx.types.table.size, room, ctx.measure, LAST_LINE.item);
  const width = part.signal === "Caution" ? 2.5 : 1;
  const color = part.signal === "Caution" ? ctx.colors.ink : ctx.colors.rule;
  if (part.tick) return tickLines(part, linesIn(ctx.width - tick.inset), ctx);
  const lines = linesIn(ctx.width - inset);
  return lines.map((line, i) => ({
    height: ctx.types.table.lead,
    items: [
      {
        kind: "box",
        x: 0,
        y: 0,
        width,
        height: ctx.types.table.lead,
        fill: color,
        tag: { kind: "artifact" },
        block: ctx.block,
      } as const,
      ...lineAt(line, inset, 0, ctx.types.table, ink, ctx),
    ],
    gap: i === 0 ? space.caution : 0,
    tie: i < lines.length - 1,
  }));
}

/** A box before the first line of a Caution, none before a Note. */
function tickLines(part: Caution, lines: readonly WrappedLine[], ctx: PartContext): readonly FlowBox[] {
  const ink = { color: ctx.colors.ink, tag: { kind: "paragraph", id: ctx.id } } as const;
  return lines.map((line, i) => ({
    height: ctx.types.table.lead,
    items: [
      ...(i === 0 && part.signal === "Caution" ? tickBox(ctx) : []),
      ...lineAt(line, tick.inset, 0, ctx.types.table, ink, ctx),
    ],
    gap: i === 0 ? space.caution : 0,
    tie: i < lines.length - 1,
  }));
}

/** An empty square as high as capitals and a little more, in the middle of its line. */
function tickBox(ctx: PartContext): readonly PlacedItem[] {
  const middle = baselineOffset(ctx.types.table, ctx) - (ctx.measure.capHeight * ctx.types.table.size) / 2;
  const [from, to] = [0.375, tick.side - 0.375];
  const d: readonly PathCommand[] = [["M", from, from], ["L", to, from], ["L", to, to], ["L", from, to], ["Z"]];
  const item = { kind: "path", role: "shape", d, stroke: { color: ctx.colors.ink, width: 0.75 } } as const;
  const drawing = { width: tick.side, height: tick.side, items: [item] };
  return [{ kind: "drawing", x: 0, y: middle - tick.side / 2, drawing, tag: { kind: "artifact" }, block: ctx.block }];
}
