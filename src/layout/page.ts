import type { Drawing } from "../charts/drawing.ts";
import type { Weight } from "../text/measure.ts";

/** A page as data, in points, y downwards from the top left corner of the paper. */
export type Page = { readonly width: number; readonly height: number; readonly items: readonly PlacedItem[] };

/**
 * Structure of an item for assistive technology. Items of one `id` are one element: a paragraph's lines, a table over
 * two pages. The order of first appearance is the reading order.
 */
export type Tag =
  | { readonly kind: "artifact" }
  /** `captions`: the table whose caption it is, or a part of it. */
  | { readonly kind: "heading"; readonly level: 1 | 2 | 3; readonly id: string; readonly captions?: string }
  /** `group`: figures and their titles that stand together with one caption. */
  | { readonly kind: "paragraph"; readonly id: string; readonly group?: string; readonly captions?: string }
  /** `of`: the table that it opens, or the group that it closes. */
  | { readonly kind: "caption"; readonly id: string; readonly of: string }
  | { readonly kind: "list-item"; readonly list: string; readonly id: string; readonly part: "label" | "body" }
  | {
      readonly kind: "cell";
      readonly table: string;
      readonly row: number;
      readonly column: number;
      readonly header?: "column" | "row";
      readonly span?: number;
      /** Words of a shape that stands in the cell beside its text, such as a verdict's mark. */
      readonly says?: string;
    }
  | { readonly kind: "figure"; readonly id: string; readonly alt: string; readonly group?: string };

export type PlacedItem = PlacedText | PlacedRule | PlacedBox | PlacedDrawing | PlacedImage;

type Common = { readonly tag: Tag; readonly block: string };

export type PlacedText = Common & {
  readonly kind: "text";
  readonly text: string;
  readonly x: number;
  /** The baseline. */
  readonly y: number;
  readonly width: number;
  readonly size: number;
  readonly weight: Weight;
  readonly color: string;
  readonly link?: string;
};
type PlacedRule = Common & {
  readonly kind: "rule";
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
  readonly width: number;
  readonly color: string;
  readonly dash?: readonly number[];
};
type PlacedBox = Common & {
  readonly kind: "box";
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly fill: string;
};
type PlacedDrawing = Common & {
  readonly kind: "drawing";
  readonly x: number;
  readonly y: number;
  readonly drawing: Drawing;
  /** Lines and grounds round other items, which may lie on it. */
  readonly around?: true;
};
export type Rectangle = { readonly x: number; readonly y: number; readonly width: number; readonly height: number };

export type PlacedImage = Common & {
  readonly kind: "image";
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  /** Names the picture in the set that paint was given; one picture, one object in the file. */
  readonly image: string;
  /** Where the whole picture lies, from this item's corner, if only part of it is seen. */
  readonly whole?: Rectangle;
};

/** Largest size of each whole picture on the pages [pt]; `seen` is the only part of it that any page shows. */
export type DrawnSize = { readonly width: number; readonly height: number; readonly seen?: Rectangle };

export function drawnSizes(pages: readonly Page[]): ReadonlyMap<string, DrawnSize> {
  const sizes = new Map<string, DrawnSize>();
  for (const item of pages.flatMap((page) => page.items)) {
    if (item.kind !== "image") continue;
    const { width, height } = item.whole ?? item;
    const known = sizes.get(item.image);
    if (!known) sizes.set(item.image, { width, height, ...(item.whole ? { seen: seenPart(item, item.whole) } : {}) });
    else sizes.set(item.image, { width: Math.max(width, known.width), height: Math.max(height, known.height) });
  }
  return sizes;
}

const seenPart = ({ width, height }: PlacedImage, { x, y }: Rectangle): Rectangle => ({ x: -x, y: -y, width, height });
