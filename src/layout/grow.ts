import { rowBlock } from "./block.ts";
import type { PlacedRow } from "./paginate.ts";
import type { Extra, GrowthKind } from "./setting.ts";
import { space } from "./type-sizes.ts";
import type { FlowedPage, SetRow, Typesetter } from "./typeset-rows.ts";

/**
 * Shares out what a page has left: white between rows to its usual, then plots, all by the same height, then pictures, then
 * more white. Rows that go over a page's end keep their heights, and their page its white.
 */
export function growPage(page: FlowedPage, setter: Typesetter): FlowedPage {
  const gaps = gapCount(page);
  const usual = shareGaps(gaps, space.row, space.rowUsual, page.room - page.height);
  const plot = largestGrowth(page, { plot: 0, picture: 0 }, "plot", usual.left);
  const pictured = { plot, picture: 0 };
  const picture = largestGrowth(page, pictured, "picture", usual.left - growthCost(page, pictured));
  const extra = { plot, picture };
  const wide = shareGaps(gaps, usual.gap, space.rowMost, usual.left - growthCost(page, extra));
  const grown = placeGrown(page, extra, wide.gap, setter);
  // A part that did not keep to the height it said leaves the page as it was.
  return grown.height > page.room + 1e-6 ? page : grown;
}

/** Height that would be left on a page after all of it has grown [pt]. */
export function leftAfterGrowth(page: FlowedPage): number {
  const most = growthCost(page, { plot: Number.POSITIVE_INFINITY, picture: Number.POSITIVE_INFINITY });
  return page.room - page.height - most - gapCount(page) * (space.rowMost - space.row);
}

/** Gaps that may widen: none on a page with a divided row. */
const gapCount = ({ rows }: FlowedPage) => (rows.every(({ whole }) => whole) ? Math.max(0, rows.length - 1) : 0);

function shareGaps(count: number, from: number, to: number, left: number) {
  const by = count === 0 ? 0 : Math.max(0, Math.min(to - from, left / count));
  return { gap: from + by, left: left - by * count };
}

/** What the rows of a page take beyond their least heights: in a row, growth is free up to the tallest neighbour. */
const growthCost = (page: FlowedPage, extra: Extra): number =>
  page.rows.reduce((sum, placed) => sum + rowCost(placed, page.set[placed.row]!, extra), 0);

function rowCost({ whole, height }: PlacedRow, { cells }: SetRow, extra: Extra): number {
  if (!whole || cells.every(({ set }) => set.growth.length === 0)) return 0;
  const tallest = cells.map(
    ({ set }) => set.block.height + set.growth.reduce((sum, { kind, room }) => sum + Math.min(room, extra[kind]), 0),
  );
  return Math.max(0, Math.max(...tallest) - height);
}

/** The largest growth of a kind that costs no more than what is left, to a hundredth of a point. */
function largestGrowth(page: FlowedPage, extra: Extra, kind: GrowthKind, left: number): number {
  const rooms = page.rows.flatMap(({ row, whole }) =>
    whole
      ? page.set[row]!.cells.flatMap(({ set }) => set.growth.flatMap((one) => (one.kind === kind ? one.room : [])))
      : [],
  );
  const most = Math.max(0, ...rooms);
  const fits = (by: number) =>
    growthCost(page, { ...extra, [kind]: by }) - growthCost(page, extra) <= Math.max(0, left) + 1e-9;
  if (fits(most)) return most;
  let [low, high] = [0, Math.floor(most * 100)];
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (fits(middle / 100)) low = middle;
    else high = middle;
  }
  return low / 100;
}

/** The page with its rows at their final heights and gaps. */
function placeGrown(page: FlowedPage, extra: Extra, gap: number, setter: Typesetter): FlowedPage {
  const keeps = gapCount(page) === 0;
  let y = 0;
  const rows = page.rows.map((placed, i): PlacedRow => {
    const row = growRow(placed, page.set[placed.row]!, extra, setter);
    const top = i === 0 ? 0 : y + (keeps ? space.row : gap);
    y = top + row.height;
    return { ...row, y: top };
  });
  return { ...page, rows, height: y };
}

function growRow(placed: PlacedRow, { cells }: SetRow, extra: Extra, setter: Typesetter): PlacedRow {
  if (!placed.whole || cells.every(({ set }) => set.growth.length === 0)) return placed;
  const grown = rowBlock(cells.map(({ cell, x }) => ({ x, block: setter.setCell(cell, extra).block })));
  const { frame } = grown.fill({ height: Number.POSITIVE_INFINITY, fresh: true, pressed: false });
  return frame === null ? placed : { ...placed, ...frame };
}
