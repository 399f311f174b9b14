import type { Cell, CellRow } from "../../parse/parse-delimited.ts";
import { bareUnit, type ColumnHead, columnHead, unitIn } from "./column-head.ts";
import { blankHead, type Delimiter, isFilled, isNumbers, usualWidth } from "./split-rows.ts";
import type { PastedOptions } from "./take-options.ts";

/** A cell of the head, and what it names, if that is known. */
export type Head = { readonly cell: Cell; readonly head: ColumnHead | undefined };

type Found = { readonly head: readonly Head[]; readonly body: readonly CellRow[]; readonly above: number };

/** The line that names the columns, with the units that may stand on the line below it, and the rows that follow. */
export function findHead(rows: readonly CellRow[], parting: Delimiter, text: string, asked: PastedOptions): Found {
  const filled = rows.filter(isFilled);
  const numbers = filled.findIndex(isNumbers);
  if (numbers < 0) return NONE;
  const width = usualWidth(filled);
  const cellsOf = (row: CellRow) => withoutEmptyEnd(parting === " " ? blankHead(row, text, width) : row.cells);
  const above = filled.slice(0, numbers).map(cellsOf);
  const bodyFrom = (index: number) => rows.slice(rows.indexOf(filled[index]!));
  const { side } = asked;
  const names = asked.columns ?? (side && numbers === 0 ? [{ name: "lift" } as const, { name: side }] : undefined);
  if (names) {
    // Only a cut that parts the numbers into as many cells is the right one.
    if (width !== names.length || (parting === "," && filled.some(holdsTwoNumbers))) return NONE;
    return { head: headAsked(names, above, filled[numbers]!), body: bodyFrom(numbers), above: numbers };
  }
  const place = above.findIndex(namesColumns);
  if (place < 0) return NONE;
  const below = filled[place + 1]!;
  const units = isNumbers(below) ? undefined : unitsOf(below);
  const head = above[place]!.map((cell, index): Head => {
    const read = columnHead(cell.text);
    const unit = units?.[index];
    return { cell, head: read && (read.unit === undefined && unit !== undefined ? { ...read, unit } : read) };
  });
  return { head, body: bodyFrom(place + (units ? 2 : 1)), above: place };
}

const NONE: Found = { head: [], body: [], above: 0 };

/** The columns as the command line names them; a unit that it does not say may stand above them. */
function headAsked(
  names: NonNullable<PastedOptions["columns"]>,
  above: readonly (readonly Cell[])[],
  first: CellRow,
): readonly Head[] {
  const lines = above.filter((cells) => cells.length === names.length);
  return names.map((name, index): Head => {
    const cell = lines[0]?.[index] ?? first.cells[index]!;
    const unitsAbove = lines.map(
      (cells) => name && (bareUnit(cells[index]!.text) ?? unitIn(cells[index]!.text, name.name)),
    );
    const unit = name?.unit ?? unitsAbove.find((each) => each !== undefined);
    return { cell, head: name && (unit === undefined ? name : { ...name, unit }) };
  });
}

/** A lift beside a reading. */
function namesColumns(cells: readonly Cell[]): boolean {
  const names = cells.flatMap(({ text }) => columnHead(text)?.name ?? []);
  return names.includes("lift") && names.some((name) => name !== "lift" && name !== "note");
}

/** The units in a row that holds nothing else. */
function unitsOf({ cells }: CellRow): readonly (string | undefined)[] | undefined {
  const units = cells.map(({ text }) => bareUnit(text));
  const isUnits =
    cells.length > 0 && cells.every(({ text }, index) => /^[-–]?$/.test(text) || units[index] !== undefined);
  return isUnits ? units : undefined;
}

const holdsTwoNumbers = (row: CellRow): boolean =>
  isNumbers(row) && row.cells.some(({ text }) => /\d\s+[\d-]/.test(text));

export function withoutEmptyEnd(cells: readonly Cell[], least = 0): readonly Cell[] {
  let end = cells.length;
  while (end > least && cells[end - 1]!.text === "") end--;
  return cells.slice(0, end);
}
