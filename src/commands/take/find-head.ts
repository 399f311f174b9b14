import type { Cell, CellRow } from "../../parse/parse-delimited.ts";
import { type ColumnHead, findUnitIn, parseBareUnit, parseColumnHead, parseWhen, type When } from "./column-head.ts";
import { commonWidth, type Delimiter, isFilled, isNumberRow, joinHeadCells } from "./split-rows.ts";
import type { PastedOptions } from "./take-options.ts";

/** A cell of the head and its meaning, if known. */
export type Head = { readonly cell: Cell; readonly head: ColumnHead | undefined };

type TableHead = { readonly head: readonly Head[]; readonly body: readonly CellRow[]; readonly above: number };

/** Finds the line of column names, the units that may follow on the next line, and the rows below. */
export function findHead(
  rows: readonly CellRow[],
  delimiter: Delimiter,
  text: string,
  options: PastedOptions,
): TableHead {
  const filled = rows.filter(isFilled);
  const numbers = filled.findIndex(isNumberRow);
  if (numbers < 0) return NO_HEAD;
  const width = commonWidth(filled);
  const cellsOf = (row: CellRow) => trimEmptyCells(delimiter === " " ? joinHeadCells(row, text, width) : row.cells);
  const above = filled.slice(0, numbers).map(cellsOf);
  const bodyFrom = (index: number) => rows.slice(rows.indexOf(filled[index]!));
  const { side } = options;
  const names = options.columns ?? (side && numbers === 0 ? [{ name: "lift" } as const, { name: side }] : undefined);
  if (names) {
    // The delimiter must split the numbers into as many cells as there are names.
    if (width !== names.length || (delimiter === "," && filled.some(holdsTwoNumbers))) return NO_HEAD;
    return { head: headFromOptions(names, above, filled[numbers]!), body: bodyFrom(numbers), above: numbers };
  }
  const place = above.findIndex(namesColumns);
  if (place < 0) return NO_HEAD;
  const below = filled[place + 1]!;
  const units = isNumberRow(below) ? undefined : parseUnitRow(below);
  const groups = groupsAbove(above[place - 1] ?? [], above[place]!.length);
  const head = above[place]!.map((cell, index): Head => {
    const read = parseColumnHead(cell.text);
    const [unit, when] = [read?.unit ?? units?.[index], read?.when ?? groups[index]];
    return { cell, head: read && { ...read, ...(unit === undefined ? {} : { unit }), ...(when && { when }) } };
  });
  return { head, body: bodyFrom(place + (units ? 2 : 1)), above: place };
}

const NO_HEAD: TableHead = { head: [], body: [], above: 0 };

/** The `before` or `after` in the line above the names that each column stands under: the nearest to its left. */
function groupsAbove(cells: readonly Cell[], columns: number): readonly (When | undefined)[] {
  let group: When | undefined;
  return Array.from({ length: columns }, (_, index) => {
    const text = cells[index]?.text ?? "";
    if (text !== "") group = parseWhen(text);
    return group;
  });
}

/** Columns from the command line, with units from the lines above where it states none. */
function headFromOptions(
  names: NonNullable<PastedOptions["columns"]>,
  above: readonly (readonly Cell[])[],
  first: CellRow,
): readonly Head[] {
  const lines = above.filter((cells) => cells.length === names.length);
  return names.map((name, index): Head => {
    const cell = lines[0]?.[index] ?? first.cells[index]!;
    const unitsAbove = lines.map(
      (cells) => name && (parseBareUnit(cells[index]!.text) ?? findUnitIn(cells[index]!.text, name.name)),
    );
    const unit = name?.unit ?? unitsAbove.find((each) => each !== undefined);
    return { cell, head: name && (unit === undefined ? name : { ...name, unit }) };
  });
}

/** Whether the cells name a lift and at least one reading. */
function namesColumns(cells: readonly Cell[]): boolean {
  const names = cells.flatMap(({ text }) => parseColumnHead(text)?.name ?? []);
  return names.includes("lift") && names.some((name) => name !== "lift" && name !== "note");
}

/** Units of a row that holds only units; undefined for any other row. */
function parseUnitRow({ cells }: CellRow): readonly (string | undefined)[] | undefined {
  const units = cells.map(({ text }) => parseBareUnit(text));
  const isUnits =
    cells.length > 0 && cells.every(({ text }, index) => /^[-–]?$/.test(text) || units[index] !== undefined);
  return isUnits ? units : undefined;
}

const holdsTwoNumbers = (row: CellRow): boolean =>
  isNumberRow(row) && row.cells.some(({ text }) => /\d\s+[\d-]/.test(text));

export function trimEmptyCells(cells: readonly Cell[], least = 0): readonly Cell[] {
  let end = cells.length;
  while (end > least && cells[end - 1]!.text === "") end--;
  return cells.slice(0, end);
}
