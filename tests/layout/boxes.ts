import type { Page, PlacedItem } from "../../src/layout/page.ts";

export type Box = { readonly left: number; readonly top: number; readonly right: number; readonly bottom: number };

/** The box an item's ink takes: capitals and descenders for text. */
export function boxOf(item: PlacedItem): Box {
  switch (item.kind) {
    case "text":
      return {
        left: item.x,
        right: item.x + item.width,
        top: item.y - item.size * 0.7,
        bottom: item.y + item.size * 0.2,
      };
    case "rule":
      return {
        left: Math.min(item.x1, item.x2),
        right: Math.max(item.x1, item.x2),
        top: Math.min(item.y1, item.y2) - item.width / 2,
        bottom: Math.max(item.y1, item.y2) + item.width / 2,
      };
    case "drawing":
      return { left: item.x, top: item.y, right: item.x + item.drawing.width, bottom: item.y + item.drawing.height };
    default:
      return { left: item.x, top: item.y, right: item.x + item.width, bottom: item.y + item.height };
  }
}

/** Pairs on one page whose boxes lie on each other: text and pictures, never rules and fills. */
export function overlaps(page: Page): readonly (readonly [PlacedItem, PlacedItem])[] {
  const solid = page.items.filter((item) => item.kind === "text" || item.kind === "drawing" || item.kind === "image");
  const boxes = solid.map(boxOf);
  const near = 0.02;
  return solid.flatMap((a, i) =>
    solid.slice(i + 1).flatMap((b, j) => {
      const [p, q] = [boxes[i]!, boxes[i + 1 + j]!];
      const apart =
        p.right <= q.left + near || q.right <= p.left + near || p.bottom <= q.top + near || q.bottom <= p.top + near;
      return apart ? [] : [[a, b] as const];
    }),
  );
}

const TEN_MM = (10 * 72) / 25.4;

/** Items that reach out of the live area; the foot below it keeps 10 mm from the edge. */
export function outside(
  page: Page,
  margin: { left: number; right: number; top: number; bottom: number },
): readonly PlacedItem[] {
  const near = 0.02;
  return page.items.filter((item) => {
    const box = boxOf(item);
    return (
      box.left < margin.left - near ||
      box.right > page.width - margin.right + near ||
      box.top < margin.top - near ||
      box.bottom > page.height - (item.block === "furniture" ? TEN_MM : margin.bottom) + near
    );
  });
}

/** All text of a page that is not furniture, in order. */
export const flowTexts = (page: Page) =>
  page.items.flatMap((item) => (item.kind === "text" && item.block !== "furniture" ? [item] : []));
