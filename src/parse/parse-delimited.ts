import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import { invisibleCharacters } from "./invisible-characters.ts";
import { textFaults } from "./limits.ts";

/** A cell's text and its offsets in the file. */
export type Cell = { readonly text: string; readonly start: number; readonly end: number };

/** One line: its cells, and the comment behind `#`. */
export type CellRow = { readonly cells: readonly Cell[]; readonly comment?: Cell };

type Delimited = { readonly rows: readonly CellRow[]; readonly diagnostics: readonly Diagnostic[] };

export type Separator = "\t" | ";" | ",";

/** The text being parsed, and the errors found so far. */
type Input = {
  readonly file: string;
  readonly text: string;
  readonly separator: Separator;
  readonly diagnostics: Diagnostic[];
};

/** Parses a CSV or TSV text (`;`, `,` or tab; quotes; byte order mark). Without `known` the head line shows the separator. */
export function parseDelimited(file: string, text: string, known?: Separator): Delimited {
  const faults = textFaults(file, text);
  if (faults.length > 0) return { rows: [], diagnostics: faults };
  let start = text.startsWith("\ufeff") ? 1 : 0;
  const lines = text.slice(start).split("\n");
  const diagnostics = [...invisibleCharacters(file, text)];
  const input: Input = { file, text, separator: known ?? separatorOf(lines), diagnostics };
  const rows: CellRow[] = [];
  for (const line of lines) {
    const row = parseRow(input, start, start + line.length - (line.endsWith("\r") ? 1 : 0));
    if (row.comment || row.cells.some((cell) => cell.text !== "")) rows.push(row);
    start += line.length + 1;
  }
  return { rows, diagnostics };
}

/** Spreadsheets write the separator of their country: the first line that is no comment shows which. */
function separatorOf(lines: readonly string[]): Separator {
  const head = lines.find((line) => line.trim() !== "" && !line.trimStart().startsWith("#")) ?? "";
  return head.includes("\t") ? "\t" : head.includes(";") ? ";" : ",";
}

/** Parses the line [from, end). */
function parseRow(input: Input, from: number, end: number): CellRow {
  const { text, separator } = input;
  const cells: Cell[] = [];
  for (let at = from; ; at++) {
    while (at < end && text[at] === " ") at++;
    const parse = at < end && text[at] === '"' ? parseQuotedCell : parsePlainCell;
    const { cell, next } = parse(input, at, end);
    cells.push(cell);
    at = next;
    if (at < end && text[at] === separator) continue;
    if (at >= end || text[at] !== "#") return { cells };
    // A comment alone in its cell, or on a line of its own, is no cell.
    if (cell.text === "") cells.pop();
    return { cells, comment: trimCell(text, at + 1, end) };
  }
}

/** A cell, and the offset at which its text ends. */
type ParsedCell = { readonly cell: Cell; readonly next: number };

function parsePlainCell({ text, separator }: Input, start: number, end: number): ParsedCell {
  let next = start;
  while (next < end && text[next] !== separator && text[next] !== "#") next++;
  return { cell: trimCell(text, start, next), next };
}

/** A quoted cell ends at its quote, or with its line; a doubled quote stands for one. */
function parseQuotedCell(input: Input, open: number, end: number): ParsedCell {
  const { text, separator } = input;
  let close = open + 1;
  while (close < end && !(text[close] === '"' && text[close + 1] !== '"')) close += text[close] === '"' ? 2 : 1;
  if (close >= end) {
    const message = 'the cell that begins with `"` has no closing `"` on its line';
    refuseQuotes(input, open, end, message, 'write the missing "');
    return { cell: trimCell(text, open + 1, end), next: end };
  }
  const cell = trimCell(text, open + 1, close);
  let next = close + 1;
  while (next < end && text[next] === " ") next++;
  if (next < end && text[next] !== separator && text[next] !== "#") {
    const message = "text follows after the closing quote of a cell";
    refuseQuotes(input, next, next + 1, message, "put the whole cell in quotes, or none of it");
    while (next < end && text[next] !== separator) next++;
  }
  return { cell: { ...cell, text: cell.text.replaceAll('""', '"') }, next };
}

function refuseQuotes({ file, diagnostics }: Input, start: number, end: number, message: string, hint: string): void {
  diagnostics.push({ severity: "error", code: "source/quotes", message, at: { file, start, end }, hint });
}

/** The cell [start, end) without the blanks around it. */
function trimCell(text: string, start: number, end: number): Cell {
  const raw = text.slice(start, end);
  const from = start + raw.length - raw.trimStart().length;
  const cell = raw.trim();
  return { text: cell, start: from, end: from + cell.length };
}
