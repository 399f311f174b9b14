import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import { invisibleCharacters } from "./invisible-characters.ts";
import { textFaults } from "./limits.ts";

/** A cell's text, and where it stands in the file. */
export type Cell = { readonly text: string; readonly start: number; readonly end: number };

/** One line: its cells, and what follows `#` on it. */
export type CellRow = { readonly cells: readonly Cell[]; readonly comment?: Cell };

export type Delimited = { readonly rows: readonly CellRow[]; readonly diagnostics: readonly Diagnostic[] };

export type Separator = "\t" | ";" | ",";

/** Spreadsheets write what their country writes; the head line tells which. */
function separatorOf(head: string): Separator {
  return head.includes("\t") ? "\t" : head.includes(";") ? ";" : ",";
}

/** A cell without the blanks around it. */
function trimmed(text: string, start: number, end: number): Cell {
  const raw = text.slice(start, end);
  const from = start + raw.length - raw.trimStart().length;
  const cell = raw.trim();
  return { text: cell, start: from, end: from + cell.length };
}

/**
 * A CSV or TSV text (`;`, `,` or tab; quotes; byte order mark) as rows of cells with their places. Pure: `file` only names it.
 * The head line tells the separator, unless the caller knows it.
 */
export function parseDelimited(file: string, text: string, known?: Separator): Delimited {
  const faults = textFaults(file, text);
  if (faults.length > 0) return { rows: [], diagnostics: faults };
  const diagnostics: Diagnostic[] = [...invisibleCharacters(file, text)];
  const begin = text.startsWith("\ufeff") ? 1 : 0;
  const head =
    text
      .slice(begin)
      .split(/\r?\n/)
      .find((line) => line.trim() !== "" && !line.trimStart().startsWith("#")) ?? "";
  const separator = known ?? separatorOf(head);
  const rows: CellRow[] = [];

  let start = begin;
  for (const line of text.slice(begin).split("\n")) {
    const end = start + line.length - (line.endsWith("\r") ? 1 : 0);
    const row = rowOf(start, end);
    if (row.comment || row.cells.some((cell) => cell.text !== "")) rows.push(row);
    start += line.length + 1;
  }
  return { rows, diagnostics };

  function rowOf(from: number, end: number): CellRow {
    const cells: Cell[] = [];
    let at = from;
    for (;;) {
      while (at < end && text[at] === " ") at++;
      if (text[at] === '"' && at < end) {
        const { cell, next } = quoted(at, end);
        cells.push(cell);
        at = next;
      } else {
        const start = at;
        while (at < end && text[at] !== separator && text[at] !== "#") at++;
        cells.push(trimmed(text, start, at));
      }
      if (at < end && text[at] === separator) {
        at++;
        continue;
      }
      if (at < end && text[at] === "#") {
        // A comment alone in its cell, or a line of its own, is no cell.
        if (cells.at(-1)!.text === "") cells.pop();
        return { cells, comment: trimmed(text, at + 1, end) };
      }
      return { cells };
    }
  }

  /** A quoted cell ends at its quote; a doubled quote stands for one. Its line ends it at the latest. */
  function quoted(open: number, end: number): { cell: Cell; next: number } {
    let close = open + 1;
    while (close < end && !(text[close] === '"' && text[close + 1] !== '"')) close += text[close] === '"' ? 2 : 1;
    if (close >= end) {
      diagnostics.push({
        severity: "error",
        code: "source/quotes",
        message: 'the cell that begins with `"` has no closing `"` on its line',
        at: { file, start: open, end },
        hint: 'write the missing "',
      });
      return { cell: trimmed(text, open + 1, end), next: end };
    }
    const cell = trimmed(text, open + 1, close);
    let next = close + 1;
    while (next < end && text[next] === " ") next++;
    if (next < end && text[next] !== separator && text[next] !== "#") {
      diagnostics.push({
        severity: "error",
        code: "source/quotes",
        message: "text follows after the closing quote of a cell",
        at: { file, start: next, end: next + 1 },
        hint: "put the whole cell in quotes, or none of it",
      });
      while (next < end && text[next] !== separator) next++;
    }
    return { cell: { ...cell, text: cell.text.replaceAll('""', '"') }, next };
  }
}
