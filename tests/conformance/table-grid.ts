import { get, listOf, once, type PdfFile } from "./pdf-file.ts";
import { attribute, type Element, elements } from "./structure-tree.ts";
import { isKind, nameOf, textOf } from "./values.ts";

/** A cell and the rows and columns that it takes, counted from 0; `head` for a row of the THead. */
export type GridCell = {
  readonly cell: Element;
  readonly row: number;
  readonly column: number;
  readonly rows: number;
  readonly columns: number;
  readonly head: boolean;
};
export type Grid = {
  readonly table: Element;
  readonly cells: readonly GridCell[];
  /** Of each row: the columns that its own cells and those reaching into it from above take. */
  readonly widths: readonly number[];
  /** Cells that lie on others. */
  readonly overlaps: readonly Element[];
};

export const grids = once((file: PdfFile): readonly Grid[] => elements(file, "Table").map((one) => gridOf(file, one)));

function gridOf(file: PdfFile, table: Element): Grid {
  const rows = rowsOf(table);
  const taken: Set<number>[] = rows.map(() => new Set());
  const cells: GridCell[] = [];
  const overlaps: Element[] = [];
  rows.forEach((row, r) => {
    let column = 0;
    for (const cell of row.children) {
      while (taken[r]!.has(column)) column++;
      const place = { row: r, column, rows: span(file, cell, "RowSpan"), columns: span(file, cell, "ColSpan") };
      for (let y = r; y < Math.min(r + place.rows, rows.length); y++)
        for (let x = column; x < column + place.columns; x++) {
          if (taken[y]!.has(x)) overlaps.push(cell);
          taken[y]!.add(x);
        }
      cells.push({ ...place, cell, head: row.parent?.type === "THead" });
    }
  });
  return { table, cells, widths: taken.map(({ size }) => size), overlaps };
}

const rowsOf = (table: Element): readonly Element[] =>
  table.children.flatMap((kid) => (kid.type === "TR" ? [kid] : rowsOf(kid)));

function span(file: PdfFile, cell: Element, key: "RowSpan" | "ColSpan"): number {
  const count = attribute(file, cell, "Table", key);
  return typeof count === "number" ? count : 1;
}

export const scopeOf = (file: PdfFile, cell: Element) => nameOf(attribute(file, cell, "Table", "Scope"));

/** Heads of a cell by its place: those over it, outermost first, then those before it in its rows. */
export function headsByPlace(file: PdfFile, { cells }: Grid, at: GridCell): readonly Element[] {
  const meet = (from: number, count: number, other: number, others: number) =>
    from < other + others && other < from + count;
  const heads = cells.filter(({ cell }) => cell.type === "TH" && cell !== at.cell);
  const over = heads.filter(
    (one) =>
      scopeOf(file, one.cell) !== "Row" && one.row < at.row && meet(one.column, one.columns, at.column, at.columns),
  );
  const before = heads.filter(
    (one) => scopeOf(file, one.cell) !== "Column" && one.column < at.column && meet(one.row, one.rows, at.row, at.rows),
  );
  return [...over, ...before].map(({ cell }) => cell);
}

/** The identifiers that a cell names as its heads. */
export const headersOf = (file: PdfFile, cell: Element): readonly string[] =>
  listOf(file, attribute(file, cell, "Table", "Headers")).map((one) => textOf(get(file, one)) ?? "");

/** The object numbers of elements by their identifiers, as the tree's root lists them. */
export const identifiers = once((file: PdfFile): ReadonlyMap<string, number> => {
  const found = new Map<string, number>();
  const visit = (node: ReturnType<typeof get>) => {
    const names = listOf(file, get(file, node, "Names"));
    for (let i = 0; i + 1 < names.length; i += 2) {
      const to = names[i + 1];
      if (isKind(to, "ref")) found.set(textOf(get(file, names[i])) ?? "", to.number);
    }
    listOf(file, get(file, node, "Kids")).forEach((kid) => {
      visit(kid);
    });
  };
  const root = get(file, file.trailer, "Root", "StructTreeRoot", "IDTree");
  if (root !== undefined) visit(root);
  return found;
});
