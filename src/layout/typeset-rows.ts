import type { Sheet, SheetCell, SheetRow } from "../sheet/content.ts";
import { rowBlock } from "./block.ts";
import { type PageFrame, paginate } from "./paginate.ts";
import { fitsHero } from "./parts/hero.ts";
import { type TypesetBlock, typesetBlock } from "./set-block.ts";
import type { Extra, LayoutEnv } from "./setting.ts";
import { shareRow } from "./share-row.ts";
import { grid, space, typeLook } from "./type-sizes.ts";

/** A block in its place, with an id of its own. */
export type Cell = SheetCell & { readonly id: string };
/** Blocks side by side; `asked` is how many the template places in the row. */
export type Row = {
  readonly cells: readonly Cell[];
  readonly asked: number;
  readonly newPage: boolean;
  readonly pullUp: boolean;
  /** Nothing that goes over from before stands on its page. */
  readonly fresh?: boolean;
};

/** A row of typeset blocks, each from `x` on. */
export type SetRow = {
  readonly cells: readonly { readonly cell: Cell; readonly x: number; readonly set: TypesetBlock }[];
};
/** A page with the rows that its placed rows are numbered by, and its room for blocks [pt]. */
export type FlowedPage = PageFrame & { readonly set: readonly SetRow[]; readonly room: number };

/** Sets blocks when they are asked for, each once for its width and height. */
export type Typesetter = {
  readonly setCell: (cell: Cell, extra?: Extra) => TypesetBlock;
  readonly setRows: (rows: readonly Row[]) => readonly SetRow[];
  /** Pages of these rows, the first of them the sheet's first. */
  readonly flow: (rows: readonly Row[]) => readonly FlowedPage[];
  /** The same, but no page is the sheet's first. */
  readonly flowLater: (rows: readonly Row[]) => readonly FlowedPage[];
};

/** Rows of a sheet, empty blocks left out; each block's id tells its row and its place in it. */
export const sheetRows = (rows: readonly SheetRow[], images: LayoutEnv["images"]): readonly Row[] =>
  rows.map(({ cells, asked, newPage = false, pullUp = false, fresh = false }, r) => ({
    cells: cells
      .filter(({ block: { parts } }) => parts.some((part) => part.kind !== "hero" || fitsHero(part, images)))
      .map((cell, c): Cell => ({ ...cell, id: `r${r}c${c}` })),
    asked: asked ?? cells.length,
    newPage,
    pullUp,
    fresh,
  }));

/** `height` is the first page's, `later` that of the others [pt]. */
export function createTypesetter(
  room: { readonly width: number; readonly height: number; readonly later: number },
  { colors, paper }: Pick<Sheet["theme"], "colors" | "paper">,
  env: LayoutEnv,
): Typesetter {
  const look = typeLook(paper);
  // Narrower than the grid's on a smaller page.
  const column = Math.min(grid.column, (room.width - (grid.columns - 1) * grid.gutter) / grid.columns);
  const known = new Map<string, TypesetBlock>();
  const setCell = ({ block, id, span }: Cell, extra?: Extra): TypesetBlock => {
    const key = `${id} ${span} ${extra ? `${extra.plot} ${extra.picture}` : ""}`;
    const width = span * column + (span - 1) * grid.gutter;
    const context = { ...env, colors, ...look, width, pageHeight: room.later, id, ...(extra ? { extra } : {}) };
    const set = known.get(key) ?? typesetBlock(block, context);
    known.set(key, set);
    return set;
  };
  const setRows = (rows: readonly Row[]): readonly SetRow[] =>
    rows.flatMap(({ cells, asked }) => {
      if (cells.length === 0) return [];
      const shared = shareRow(cells, asked);
      return [{ cells: shared.map((cell) => ({ cell, x: cell.from * (column + grid.gutter), set: setCell(cell) })) }];
    });
  const flowFrom = (rows: readonly Row[], first: number): readonly FlowedPage[] => {
    const set = setRows(rows);
    const blocks = set.map(({ cells }) => ({
      block: rowBlock(cells.map(({ x, set: { block } }) => ({ x, block }))),
      newPage: false,
    }));
    const pages = paginate(blocks, first, space.row, room.later);
    return pages.map((page, i) => ({ ...page, set, room: i === 0 ? first : room.later }));
  };
  return {
    setCell,
    setRows,
    flow: (rows) => flowFrom(rows, room.height),
    flowLater: (rows) => flowFrom(rows, room.later),
  };
}
