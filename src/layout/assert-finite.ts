import type { DrawingItem } from "../charts/drawing.ts";
import type { FlowBox } from "./flow-box.ts";
import type { PlacedItem } from "./page.ts";

/** Returns the box; throws, naming the block, if any of its numbers is not finite. */
export function assertFinite(box: FlowBox, block: string): FlowBox {
  const heads = box.run && box.opens ? [box.run.head, box.run.again, box.run.close] : [];
  for (const { height, items } of [box, ...heads]) {
    if (isFiniteNumber(height) && isFiniteNumber(box.gap) && items.every(hasFiniteNumbers)) continue;
    const path = nonFinitePath({ height, gap: box.gap, items });
    if (path !== undefined) throw new Error(`block "${block}": not a number at ${path.join(".")}`);
  }
  return box;
}

const isFiniteNumber = Number.isFinite;

/** Whether an item's numbers are finite; a cheap test before the search for the path. */
function hasFiniteNumbers(item: PlacedItem): boolean {
  switch (item.kind) {
    case "text":
      return (
        isFiniteNumber(item.x) && isFiniteNumber(item.y) && isFiniteNumber(item.width) && isFiniteNumber(item.size)
      );
    case "rule":
      return [item.x1, item.y1, item.x2, item.y2, item.width, ...(item.dash ?? [])].every(isFiniteNumber);
    case "drawing":
      return (
        [item.x, item.y, item.drawing.width, item.drawing.height].every(isFiniteNumber) &&
        item.drawing.items.every(hasFiniteGeometry)
      );
    default:
      return (
        isFiniteNumber(item.x) && isFiniteNumber(item.y) && isFiniteNumber(item.width) && isFiniteNumber(item.height)
      );
  }
}

function hasFiniteGeometry(item: DrawingItem): boolean {
  if (item.kind === "text")
    return (
      isFiniteNumber(item.x) && isFiniteNumber(item.y) && isFiniteNumber(item.size) && isFiniteNumber(item.angle ?? 0)
    );
  const { stroke } = item;
  if (
    !isFiniteNumber(item.fillOpacity ?? 0) ||
    (stroke && ![stroke.width, ...(stroke.dash ?? [])].every(isFiniteNumber))
  )
    return false;
  return item.d.every((command) => {
    for (let i = 1; i < command.length; i++) if (!isFiniteNumber(command[i])) return false;
    return true;
  });
}

/** Path of the first number that is NaN or infinite. */
function nonFinitePath(value: unknown): readonly string[] | undefined {
  if (typeof value === "number") return Number.isFinite(value) ? undefined : [];
  if (typeof value !== "object" || value === null) return undefined;
  for (const key in value) {
    const path = nonFinitePath((value as Record<string, unknown>)[key]);
    if (path !== undefined) return [key, ...path];
  }
  return undefined;
}
