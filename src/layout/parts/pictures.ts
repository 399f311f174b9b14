import type { Pictures } from "../../sheet/content.ts";
import { type FlowBox, shift } from "../flow-box.ts";
import { captionBelow } from "../set-text.ts";
import type { Setting } from "../setting.ts";
import { grid, space } from "../type-sizes.ts";

type Picture = Pictures["pictures"][number] & { readonly id: string; readonly shape: number };

/** Not made smaller than this to have room for its words: then the block says that it does not fit [pt]. */
const LEAST = 60;
/** A caption narrower than this breaks after every word [pt]. */
const NARROWEST = 90;

/** Pictures in rows of one height, each over its caption; a row is never divided. */
export function pictures(part: Pictures, set: Setting): readonly FlowBox[] {
  let left = part.pictures.map((picture, i) => ({
    ...picture,
    id: `${set.id}-${i}`,
    shape: shapeOf(picture.image, set),
  }));
  const rows: FlowBox[] = [];
  while (left.length > 0) {
    const count = howMany(left, part.height, set.width);
    rows.push(row(left.slice(0, count), part.height, set));
    left = left.slice(count);
  }
  return rows;
}

/** Width over height. */
function shapeOf(image: string, set: Setting): number {
  const size = set.images.get(image);
  if (size === undefined) throw new Error(`block "${set.block}": no picture named ${image} was given to layout`);
  return size.width / size.height;
}

/** The height at which so many fill the width. */
function filling(row: readonly Picture[], width: number): number {
  return (width - (row.length - 1) * grid.gutter) / row.reduce((sum, { shape }) => sum + shape, 0);
}

/** How many of them stand in the next row: while one more brings it nearer to the height that is wanted. */
function howMany(left: readonly Picture[], height: number, width: number): number {
  let count = 1;
  for (; count < left.length; count++) {
    const [now, then] = [count, count + 1].map((n) => filling(left.slice(0, n), width)) as [number, number];
    const narrow = left.slice(0, count + 1).some(({ shape }) => shape * Math.min(height, then) < NARROWEST);
    if (narrow || now <= height || now / height < height / then) break;
  }
  return count;
}

function row(all: readonly Picture[], wanted: number, set: Setting): FlowBox {
  const captions = (height: number) =>
    all.map(({ caption, id, shape }) => captionBelow(caption, `${id}-group`, Math.max(shape * height, NARROWEST), set));
  const tallest = (height: number) => Math.max(...captions(height).map((caption) => caption.height));
  const free = Math.min(wanted, filling(all, set.width));
  const height = Math.max(Math.min(free, Math.max(LEAST, set.pageHeight - tallest(free))), 1);
  const below = captions(height);
  let x = 0;
  const items = all.flatMap(({ image, alt, id, shape, caption }, i) => {
    const width = shape * height;
    const grouped = caption === undefined ? {} : { group: `${id}-group` };
    const tag = { kind: "figure", id, alt, ...grouped } as const;
    const picture = { kind: "image", x: 0, y: 0, width, height, image, tag, block: set.block } as const;
    const placed = shift([picture, ...shift(below[i]!.items, 0, height)], x, 0);
    x += width + grid.gutter;
    return placed;
  });
  return { height: height + tallest(height), items, gap: space.part, tie: false };
}
