import type { Block } from "./block.ts";
import { type Frame, shift } from "./flow-box.ts";
import { space } from "./type-sizes.ts";

/** A typeset row of the sheet. */
type TypesetRow = { readonly block: Block; readonly newPage: boolean };

/** Fills pages of one height, top to bottom; each frame's height is where its last row ends. */
export function paginate(rows: readonly TypesetRow[], height: number): readonly Frame[] {
  const pages: Frame[] = [];
  let page: Frame = { height: 0, items: [] };
  const turn = () => {
    pages.push(page);
    page = { height: 0, items: [] };
  };
  const queue = rows.map((row) => ({ ...row }));
  for (let row = queue.shift(); row !== undefined; row = queue.shift()) {
    const fresh = page.items.length === 0;
    if (row.newPage && !fresh) turn();
    const room = remainingRegion(page, height);
    // Waiting may not leave a page mostly empty.
    const pressed = page.height < height * 0.4;
    const { frame, rest } = row.block.fill({ ...room, pressed });
    const stranded =
      frame !== null &&
      rest === null &&
      row.block.endsInHeading &&
      !room.fresh &&
      !isFollowed(queue, frame, page, height);
    if (frame === null || stranded) {
      if (room.fresh) throw new Error("a block made no progress on an empty page");
      turn();
      queue.unshift({ ...row, newPage: false });
      continue;
    }
    page = appendFrame(page, frame);
    if (rest !== null) {
      turn();
      queue.unshift({ block: rest, newPage: false });
    }
  }
  if (page.items.length > 0 || pages.length === 0) pages.push(page);
  return pages;
}

function remainingRegion(page: Frame, height: number) {
  const fresh = page.items.length === 0;
  return { height: height - page.height - (fresh ? 0 : space.row), fresh };
}

function appendFrame(page: Frame, frame: Frame): Frame {
  if (frame.items.length === 0) return page;
  const y = page.items.length === 0 ? 0 : page.height + space.row;
  return { height: y + frame.height, items: [...page.items, ...shift(frame.items, 0, y)] };
}

/** Whether part of the next row fits under a row that ends in a heading. */
function isFollowed(queue: readonly TypesetRow[], frame: Frame, page: Frame, height: number): boolean {
  const [next, ...others] = queue;
  if (next === undefined) return true;
  if (next.newPage) return false;
  const so = appendFrame(page, frame);
  const fill = next.block.fill({ ...remainingRegion(so, height), pressed: false });
  if (fill.frame === null) return false;
  return fill.rest !== null || !next.block.endsInHeading || isFollowed(others, fill.frame, so, height);
}
