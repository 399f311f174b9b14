import type { PathCommand } from "../../charts/drawing.ts";
import type { PlacedItem, Tag } from "../page.ts";
import type { PartContext } from "../setting.ts";

/** A box of ink around a value. */
export function boxAround(
  { x, y, width, height }: { readonly x: number; readonly y: number; readonly width: number; readonly height: number },
  tag: Tag,
  ctx: PartContext,
): PlacedItem {
  const d: readonly PathCommand[] = [["M", 0, 0], ["L", width, 0], ["L", width, height], ["L", 0, height], ["Z"]];
  const item = { kind: "path", role: "shape", d, stroke: { color: ctx.colors.ink, width: 1 } } as const;
  return { kind: "drawing", x, y, drawing: { width, height, items: [item] }, around: true, tag, block: ctx.block };
}
