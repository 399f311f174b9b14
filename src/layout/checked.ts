import type { DrawingItem } from "../charts/drawing.ts";
import type { FlowBox } from "./flow-box.ts";
import type { Placed } from "./page.ts";

/** The same slab, if each of its numbers is one; else an error that names the block. No NaN reaches the page. */
export function checked(slab: FlowBox, block: string): FlowBox {
  const heads = slab.run && slab.opens ? [slab.run.head, slab.run.again, slab.run.close] : [];
  for (const { height, items } of [slab, ...heads]) {
    if (isSound(height) && isSound(slab.gap) && items.every(isPlaced)) continue;
    const path = notANumber({ height, gap: slab.gap, items });
    if (path !== undefined) throw new Error(`block "${block}": not a number at ${path.join(".")}`);
  }
  return slab;
}

const isSound = Number.isFinite;

/** Whether an item's numbers are; said quickly, for there are hundreds and hardly ever one that is not. */
function isPlaced(item: Placed): boolean {
  switch (item.kind) {
    case "text":
      return isSound(item.x) && isSound(item.y) && isSound(item.width) && isSound(item.size);
    case "rule":
      return [item.x1, item.y1, item.x2, item.y2, item.width, ...(item.dash ?? [])].every(isSound);
    case "drawing":
      return (
        [item.x, item.y, item.drawing.width, item.drawing.height].every(isSound) && item.drawing.items.every(isDrawn)
      );
    default:
      return isSound(item.x) && isSound(item.y) && isSound(item.width) && isSound(item.height);
  }
}

function isDrawn(item: DrawingItem): boolean {
  if (item.kind === "text") return isSound(item.x) && isSound(item.y) && isSound(item.size) && isSound(item.angle ?? 0);
  const { stroke } = item;
  if (!isSound(item.fillOpacity ?? 0) || (stroke && ![stroke.width, ...(stroke.dash ?? [])].every(isSound)))
    return false;
  return item.d.every((command) => {
    for (let i = 1; i < command.length; i++) if (!isSound(command[i])) return false;
    return true;
  });
}

/** Where in plain data a number is NaN or infinite. */
function notANumber(value: unknown): readonly string[] | undefined {
  if (typeof value === "number") return Number.isFinite(value) ? undefined : [];
  if (typeof value !== "object" || value === null) return undefined;
  for (const key in value) {
    const path = notANumber((value as Record<string, unknown>)[key]);
    if (path !== undefined) return [key, ...path];
  }
  return undefined;
}
