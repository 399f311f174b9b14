import type { SheetCell } from "./content.ts";
import type { Template, TemplateCell } from "./template.ts";

/** Blocks of a row as a template names them: a span where it states one. */
type Named = Omit<TemplateCell, "from" | "span"> & { readonly span?: number };
type NamedTemplate = Omit<Template, "rows"> & {
  readonly rows: readonly { readonly blocks: readonly Named[]; readonly newPage: boolean }[];
};

const COLUMNS = 6;

/** Gives each block its columns: those it asks for, and equal shares of the rest for the others, left to right. */
export function placeBlocks({ rows, ...template }: NamedTemplate): Template {
  return { ...template, rows: rows.map(({ blocks, newPage }) => ({ cells: place(blocks), newPage })) };
}

function place(blocks: readonly Named[]): readonly TemplateCell[] {
  const asked = blocks.reduce((sum, { span = 0 }) => sum + span, 0);
  let open = blocks.filter(({ span }) => span === undefined).length;
  let left = COLUMNS - asked;
  let from = 0;
  return blocks.map((block) => {
    const span = block.span ?? Math.max(1, Math.floor(left / open));
    if (block.span === undefined) {
      left -= span;
      open -= 1;
    }
    const cell = { ...block, from, span };
    from += span;
    return cell;
  });
}

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
