import type { Page } from "./page.ts";

export type DrawnSize = { readonly width: number; readonly height: number };

/** The largest size at which each picture stands on the pages [pt]. */
export function drawnSizes(pages: readonly Page[]): ReadonlyMap<string, DrawnSize> {
  const sizes = new Map<string, DrawnSize>();
  for (const item of pages.flatMap((page) => page.items)) {
    if (item.kind !== "image" || item.width <= (sizes.get(item.image)?.width ?? 0)) continue;
    sizes.set(item.image, { width: item.width, height: item.height });
  }
  return sizes;
}
