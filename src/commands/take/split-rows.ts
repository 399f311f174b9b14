import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { readingsRows } from "../../job/readings/readings-table.ts";
import { invisibleCharacters } from "../../parse/invisible-characters.ts";
import { textFaults } from "../../parse/limits.ts";
import { type Cell, type CellRow, parseDelimited, type Separator } from "../../parse/parse-delimited.ts";

/** Delimiter of columns; a blank matches any number of blanks. */
export type Delimiter = Separator | " ";
export const DELIMITERS: readonly Delimiter[] = ["\t", ";", ",", " "];
export const DELIMITER_NAMES: Readonly<Record<Delimiter, string>> = {
  "\t": "tab",
  ";": "semicolon",
  ",": "comma",
  " ": "blank",
};

type SplitText = { readonly rows: readonly CellRow[]; readonly diagnostics: readonly Diagnostic[] };

/** Splits a text into rows of cells. */
export function splitRows(file: string, text: string, delimiter: Delimiter): SplitText {
  if (delimiter !== " ") return parseDelimited(file, text, delimiter);
  const faults = textFaults(file, text);
  const diagnostics = faults.length > 0 ? faults : invisibleCharacters(file, text);
  return { rows: diagnostics.length > 0 ? [] : readingsRows(text), diagnostics };
}

export const isFilled = (row: CellRow): boolean => row.cells.some(({ text }) => text !== "");

/** Error values of spreadsheets; they start with our comment character. */
export const SPREADSHEET_ERROR = /#(?:N\/A|DIV\/0!|VALUE!|REF!|NAME\?|NUM!|NULL!)/;

/** Joins the words of a head cell split at blanks: `lift (mm)` always; `Valve lift` where columns are two blanks apart. */
export function joinHeadCells(row: CellRow, text: string, columns: number): readonly Cell[] {
  const joined: Cell[] = [];
  for (const cell of row.cells) {
    const last = joined.at(-1);
    if (last && /^[([]/.test(cell.text))
      joined[joined.length - 1] = { text: `${last.text} ${cell.text}`, start: last.start, end: cell.end };
    else joined.push(cell);
  }
  if (joined.length === columns) return joined;
  const wide: Cell[] = [];
  for (const cell of row.cells) {
    const last = wide.at(-1);
    if (last && cell.start - last.end === 1)
      wide[wide.length - 1] = { text: text.slice(last.start, cell.end), start: last.start, end: cell.end };
    else wide.push(cell);
  }
  return wide.length === columns ? wide : joined;
}

/** The most frequent number of cells in rows of numbers. */
export function commonWidth(rows: readonly CellRow[]): number {
  const widths = rows.filter(isNumberRow).map(({ cells }) => cells.length);
  const times = (width: number) => widths.filter((each) => each === width).length;
  return widths.toSorted((a, b) => times(b) - times(a))[0] ?? 0;
}

/** Whether a row starts with a number, as readings do and heads do not. */
export const isNumberRow = (row: CellRow): boolean =>
  /^[~+-]?[.,]?\d/.test(row.cells.find(({ text }) => text !== "")?.text ?? "");
