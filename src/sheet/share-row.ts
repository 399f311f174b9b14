import type { SheetCell } from "./content.ts";

const COLUMNS = 6;

/** Cells that stay in a row take over the room of those with nothing to say, in proportion; none left over. */
export function shareRow(cells: readonly SheetCell[], asked: number): readonly SheetCell[] {
  if (cells.length === asked || cells.length === 0) return cells;
  const total = cells.reduce((sum, { span }) => sum + span, 0);
  let from = 0;
  let wanted = 0;
  return cells.map((cell) => {
    wanted += (cell.span / total) * COLUMNS;
    const to = Math.max(from + 1, Math.round(wanted));
    const shared = { ...cell, from, span: to - from };
    from = to;
    return shared;
  });
}
