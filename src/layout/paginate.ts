import type { Block } from "./block.ts";
import { type Frame, shift } from "./flow-box.ts";
import type { PlacedItem } from "./page.ts";
import { space } from "./type-sizes.ts";

/** A typeset row of the sheet. */
type TypesetRow = { readonly block: Block; readonly newPage: boolean };

/** A row, or the part of it that stands on one page: its number among the rows, its top on the page, its items from there. */
export type PlacedRow = Frame & {
  readonly row: number;
  readonly y: number;
  /** All of the row stands on this page. */
  readonly whole: boolean;
};

/** Rows of one page, from the top of the room for blocks; `height` is where the last ends. */
export type PageFrame = { readonly height: number; readonly rows: readonly PlacedRow[] };

/** Fills pages, top to bottom, `gap` between rows; those after the first may be lower. */
export function paginate(
  rows: readonly TypesetRow[],
  first: number,
  gap: number = space.row,
  later: number = first,
): readonly PageFrame[] {
  const pages: PageFrame[] = [];
  let page: PageFrame = EMPTY;
  const turn = () => {
    pages.push(page);
    page = EMPTY;
  };
  const queue = rows.map((row, index): QueuedRow => ({ ...row, index, whole: true }));
  for (let row = queue.shift(); row !== undefined; row = queue.shift()) {
    const height = pages.length === 0 ? first : later;
    if (row.newPage && page.rows.length > 0) {
      turn();
      queue.unshift({ ...row, newPage: false });
      continue;
    }
    const room = remainingRegion(page, height, gap);
    // Waiting may not leave a page mostly empty.
    const pressed = page.height < height * 0.4;
    const { frame, rest } = row.block.fill({ ...room, pressed });
    const stranded =
      frame !== null &&
      rest === null &&
      row.block.endsInHeading &&
      !room.fresh &&
      !isFollowed(queue, frame, page, { height, gap });
    if (frame === null || stranded) {
      if (room.fresh) throw new Error("a block made no progress on an empty page");
      turn();
      queue.unshift({ ...row, newPage: false });
      continue;
    }
    page = appendFrame(page, frame, { index: row.index, whole: row.whole && rest === null, gap });
    if (rest !== null) {
      turn();
      queue.unshift({ block: rest, newPage: false, index: row.index, whole: false });
    }
  }
  if (page.rows.length > 0 || pages.length === 0) pages.push(page);
  return pages;
}

/** Items of a page, from the top of the room for blocks. */
export const itemsOf = ({ rows }: PageFrame): readonly PlacedItem[] =>
  rows.flatMap(({ items, y }) => shift(items, 0, y));

const EMPTY: PageFrame = { height: 0, rows: [] };

/** A row that waits for its place; `whole` unless part of it stands on a page before. */
type QueuedRow = TypesetRow & { readonly index: number; readonly whole: boolean };

function remainingRegion({ height: filled, rows }: PageFrame, height: number, gap: number) {
  const fresh = rows.length === 0;
  return { height: height - filled - (fresh ? 0 : gap), fresh };
}

type Place = { readonly index: number; readonly whole: boolean; readonly gap: number };

function appendFrame(page: PageFrame, frame: Frame, { index, whole, gap }: Place): PageFrame {
  if (frame.items.length === 0) return page;
  const y = page.rows.length === 0 ? 0 : page.height + gap;
  return { height: y + frame.height, rows: [...page.rows, { ...frame, row: index, whole, y }] };
}

type Room = { readonly height: number; readonly gap: number };

/** Whether part of the next row fits under a row that ends in a heading. */
function isFollowed(queue: readonly QueuedRow[], frame: Frame, page: PageFrame, { height, gap }: Room): boolean {
  const [next, ...others] = queue;
  if (next === undefined) return true;
  if (next.newPage) return false;
  const so = appendFrame(page, frame, { index: 0, whole: true, gap });
  const fill = next.block.fill({ ...remainingRegion(so, height, gap), pressed: false });
  if (fill.frame === null) return false;
  return fill.rest !== null || !next.block.endsInHeading || isFollowed(others, fill.frame, so, { height, gap });
}
