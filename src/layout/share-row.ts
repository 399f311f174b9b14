import { grid } from "./type-sizes.ts";

/** A place on the grid: its first column, and how many columns wide. */
type Place = { readonly from: number; readonly span: number };

/** Widens the cells that remain of a row of `asked` cells, in proportion, over the room of the others. */
export function shareRow<T extends Place>(cells: readonly T[], asked: number): readonly T[] {
  if (cells.length === asked || cells.length === 0) return cells;
  const total = cells.reduce((sum, { span }) => sum + span, 0);
  let from = 0;
  let wanted = 0;
  return cells.map((cell) => {
    wanted += (cell.span / total) * grid.columns;
    const to = Math.max(from + 1, Math.round(wanted));
    const shared = { ...cell, from, span: to - from };
    from = to;
    return shared;
  });
}
