import type { Tag } from "../../layout/page.ts";
import type { PdfDocument, StructElement } from "../file/pdf-document.ts";

type CellTag = Extract<Tag, { kind: "cell" }>;
type Cell = { readonly element: StructElement; readonly type: "TH" | "TD"; readonly tag: CellTag };
/** A table's element, and its cells by row and column. */
type Table = { readonly element: StructElement; readonly rows: Map<number, Map<number, Cell>> };

/** The cells of all tables of a document. Rows are built at the end, since a page may set cells in any order. */
type TableElements = {
  /** The element of a cell, created at first use in the table's element. */
  readonly cellOf: (tag: CellTag, table: StructElement) => Cell;
  /** Builds each table's head and body, and names for each cell the heads that it stands under and beside. */
  readonly complete: () => void;
};

export function createTableElements(doc: PdfDocument): TableElements {
  const tables = new Map<string, Table>();
  return {
    cellOf: (tag, element) => {
      const table = tables.get(tag.table) ?? { element, rows: new Map<number, Map<number, Cell>>() };
      tables.set(tag.table, table);
      const row = table.rows.get(tag.row) ?? new Map<number, Cell>();
      table.rows.set(tag.row, row);
      const type = tag.header ? "TH" : "TD";
      const cell = row.get(tag.column) ?? { element: doc.struct(type), type, tag };
      row.set(tag.column, cell);
      return cell;
    },
    complete: () => {
      const identifiers = new Map<Cell, string>();
      for (const table of tables.values()) completeTable(doc, table, identifiers);
      writeIdentifiers(doc, identifiers);
    },
  };
}

const isHead = ({ tag }: Cell) => tag.header === "column";
const endOf = ({ tag }: Cell) => tag.column + (tag.span ?? 1);

function completeTable(doc: PdfDocument, { element, rows }: Table, identifiers: Map<Cell, string>): void {
  const sorted = [...rows].toSorted(([a], [b]) => a - b).map(([, row]) => inOrder(row));
  const columns = Math.max(...sorted.flat().map(endOf));
  const heads = sorted.filter((row) => row.some(isHead));
  for (const cell of sorted.flat())
    if (cell.type === "TH") identifiers.set(cell, `h${String(identifiers.size + 1).padStart(4, "0")}`);
  const above = heads.flat();
  for (const row of sorted) for (const cell of row) setAttributes(cell, headsOf(cell, row, above), identifiers);
  const addRows = (type: "THead" | "TBody", group: readonly (readonly Cell[])[]) => {
    const part = doc.struct(type);
    element.add(part);
    for (const row of group) part.add(rowElement(doc, row, columns));
  };
  if (heads.length > 0) addRows("THead", heads);
  addRows(
    "TBody",
    sorted.filter((row) => !heads.includes(row)),
  );
}

const inOrder = (row: ReadonlyMap<number, Cell>) => [...row.values()].toSorted((a, b) => a.tag.column - b.tag.column);

/** Column heads over a cell, outermost first, then the head of its row. */
function headsOf(cell: Cell, row: readonly Cell[], above: readonly Cell[]): readonly Cell[] {
  const over = above.filter(
    (head) =>
      head.tag.row < cell.tag.row &&
      head.tag.column <= cell.tag.column &&
      cell.tag.column < endOf(head) &&
      isHead(head),
  );
  return [...over, ...row.filter((other) => other !== cell && other.tag.header === "row")];
}

/** Scope and Headers, both: a reader may know one of them only (ISO 32000-1, table 349). */
function setAttributes(cell: Cell, heads: readonly Cell[], identifiers: ReadonlyMap<Cell, string>): void {
  const { data } = cell.element.dictionary;
  const { header, span = 1 } = cell.tag;
  const own = identifiers.get(cell);
  if (own !== undefined) data.ID = new String(own);
  data.A = {
    O: "Table",
    ...(header ? { Scope: header === "row" ? "Row" : "Column" } : {}),
    ...(span > 1 ? { ColSpan: span } : {}),
    ...(heads.length > 0 ? { Headers: heads.map((head) => new String(identifiers.get(head))) } : {}),
  };
}

/** A row with an empty cell for each skipped column, since all rows of a table must have the same length. */
function rowElement(doc: PdfDocument, row: readonly Cell[], columns: number): StructElement {
  const element = doc.struct("TR");
  let next = 0;
  const fill = (end: number) => {
    for (; next < end; next++) element.add(doc.struct("TD"));
  };
  for (const cell of row) {
    fill(cell.tag.column);
    element.add(cell.element);
    next = endOf(cell);
  }
  fill(columns);
  return element;
}

/** The name tree from identifiers to elements (ISO 32000-1, table 322), in the order of its keys. */
function writeIdentifiers(doc: PdfDocument, identifiers: ReadonlyMap<Cell, string>): void {
  if (identifiers.size === 0) return;
  const names = [...identifiers]
    .map(([{ element }, id]) => [id, element.dictionary] as const)
    .toSorted(([a], [b]) => (a < b ? -1 : 1));
  doc.getStructTreeRoot().data.IDTree = { Names: names.flatMap(([id, element]) => [new String(id), element]) };
}
