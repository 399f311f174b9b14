import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { readingsRows } from "../../job/readings/readings-table.ts";
import { invisibleCharacters } from "../../parse/invisible-characters.ts";
import { textFaults } from "../../parse/limits.ts";
import { type Cell, type CellRow, parseDelimited, type Separator } from "../../parse/parse-delimited.ts";

/** What parts the columns; a blank stands for any number of them. */
export type Delimiter = Separator | " ";
export const PARTINGS: readonly Delimiter[] = ["\t", ";", ",", " "];
export const PARTING_NAMES: Readonly<Record<Delimiter, string>> = {
  "\t": "tab",
  ";": "semicolon",
  ",": "comma",
  " ": "blank",
};

export type Cut = { readonly rows: readonly CellRow[]; readonly diagnostics: readonly Diagnostic[] };

/** A text cut into rows of cells. */
export function cutRows(file: string, text: string, parting: Delimiter): Cut {
  if (parting !== " ") return parseDelimited(file, text, parting);
  const faults = textFaults(file, text);
  const diagnostics = faults.length > 0 ? faults : invisibleCharacters(file, text);
  return { rows: diagnostics.length > 0 ? [] : readingsRows(text), diagnostics };
}

export const isFilled = (row: CellRow): boolean => row.cells.some(({ text }) => text !== "");

/** A spreadsheet's own faults begin with the mark that begins our comments. */
export const SPREADSHEET_FAULT = /#(?:N\/A|DIV\/0!|VALUE!|REF!|NAME\?|NUM!|NULL!)/;

/** Head cells between blanks: `lift (mm)` is one of them; where two or more blanks part them, so is `Valve lift`. */
export function blankHead(row: CellRow, text: string, columns: number): readonly Cell[] {
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

/** The number of cells that most rows of numbers have. */
export function usualWidth(rows: readonly CellRow[]): number {
  const widths = rows.filter(isNumbers).map(({ cells }) => cells.length);
  const times = (width: number) => widths.filter((each) => each === width).length;
  return widths.toSorted((a, b) => times(b) - times(a))[0] ?? 0;
}

/** Whether a row begins with a number, as readings do and heads do not. */
export const isNumbers = (row: CellRow): boolean =>
  /^[~+-]?[.,]?\d/.test(row.cells.find(({ text }) => text !== "")?.text ?? "");
