import type { Pictures } from "../../sheet/content.ts";
import { type FlowBox, shift } from "../flow-box.ts";
import { captionBelow } from "../set-text.ts";
import type { PartContext } from "../setting.ts";
import { grid, space } from "../type-sizes.ts";

type Picture = Pictures["pictures"][number] & { readonly id: string; readonly shape: number };

/** Least height of a picture [pt]; below it the block does not fit. */
const LEAST = 60;
/** A caption narrower than this breaks after every word [pt]. */
const NARROWEST = 90;

/** Pictures in rows of one height, each over its caption; a row is never divided. */
export function pictures(part: Pictures, ctx: PartContext): readonly FlowBox[] {
  let left = part.pictures.map((picture, i) => ({
    ...picture,
    id: `${ctx.id}-${i}`,
    shape: aspectRatio(picture.image, ctx),
  }));
  const rows: FlowBox[] = [];
  while (left.length > 0) {
    const count = countForRow(left, part.height, ctx.width);
    rows.push(pictureRow(left.slice(0, count), part.height, ctx));
    left = left.slice(count);
  }
  return rows;
}

/** Width over height. */
function aspectRatio(image: string, ctx: PartContext): number {
  const size = ctx.images.get(image);
  if (size === undefined) throw new Error(`block "${ctx.block}": no picture named ${image} was given to layout`);
  return size.width / size.height;
}

/** The height at which so many fill the width. */
function fillingHeight(row: readonly Picture[], width: number): number {
  return (width - (row.length - 1) * grid.gutter) / row.reduce((sum, { shape }) => sum + shape, 0);
}

/** Number of pictures in the next row: one more is taken while it brings the row nearer to `height`. */
function countForRow(left: readonly Picture[], height: number, width: number): number {
  let count = 1;
  for (; count < left.length; count++) {
    const [now, then] = [count, count + 1].map((n) => fillingHeight(left.slice(0, n), width)) as [number, number];
    const narrow = left.slice(0, count + 1).some(({ shape }) => shape * Math.min(height, then) < NARROWEST);
    if (narrow || now <= height || now / height < height / then) break;
  }
  return count;
}

function pictureRow(all: readonly Picture[], wanted: number, ctx: PartContext): FlowBox {
  const captions = (height: number) =>
    all.map(({ caption, id, shape }) => captionBelow(caption, `${id}-group`, Math.max(shape * height, NARROWEST), ctx));
  const tallest = (height: number) => Math.max(...captions(height).map((caption) => caption.height));
  const free = Math.min(wanted, fillingHeight(all, ctx.width));
  const height = Math.max(Math.min(free, Math.max(LEAST, ctx.pageHeight - tallest(free))), 1);
  const below = captions(height);
  let x = 0;
  const items = all.flatMap(({ image, alt, id, shape, caption }, i) => {
    const width = shape * height;
    const grouped = caption === undefined ? {} : { group: `${id}-group` };
    const tag = { kind: "figure", id, alt, ...grouped } as const;
    const picture = { kind: "image", x: 0, y: 0, width, height, image, tag, block: ctx.block } as const;
    const placed = shift([picture, ...shift(below[i]!.items, 0, height)], x, 0);
    x += width + grid.gutter;
    return placed;
  });
  return { height: height + tallest(height), items, gap: space.part, tie: false };
}
