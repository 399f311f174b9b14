import type { Drawing } from "../charts/drawing.ts";
import { assertFinite } from "./assert-finite.ts";
import type { PlacedItem } from "./page.ts";
import type { LayoutEnv } from "./setting.ts";

/**
 * Charts are drawn once, at the end: heights are known before, and most trials of a layout are thrown away. The environment
 * sets empty drawings of the size asked for; `resolve` puts the charts in their places.
 */
export function deferDrawings(env: LayoutEnv): {
  readonly env: LayoutEnv;
  readonly resolve: (item: PlacedItem) => PlacedItem;
} {
  const waiting = new WeakMap<Drawing, () => Drawing>();
  const draw: LayoutEnv["draw"] = (chart, size, options) => {
    const empty: Drawing = { ...size, items: [] };
    waiting.set(empty, () => env.draw(chart, size, options));
    return empty;
  };
  const resolve = (item: PlacedItem): PlacedItem => {
    const drawn = item.kind === "drawing" ? waiting.get(item.drawing)?.() : undefined;
    if (item.kind !== "drawing" || drawn === undefined) return item;
    const placed = { ...item, drawing: drawn };
    assertFinite({ height: 0, gap: 0, tie: false, items: [placed] }, item.block);
    return placed;
  };
  return { env: { ...env, draw }, resolve };
}
