import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import type { ReadingsOptions } from "../../job/readings/readings-head.ts";
import { gluedCell, MISSING } from "../../job/readings/readings-row.ts";
import { parseReadingsTable, type ReadingsTable } from "../../job/readings/readings-table.ts";
import type { Cell, CellRow } from "../../parse/parse-delimited.ts";
import { type DecimalMark, decimalMark, withPoint } from "./decimal-mark.ts";
import { findHead, withoutEmptyEnd } from "./find-head.ts";
import { type Column, sortColumns, unitOf } from "./sort-columns.ts";
import { cutRows, type Delimiter, isFilled, isNumbers, PARTINGS, SPREADSHEET_FAULT } from "./split-rows.ts";
import { type CreateFault, faultsIn } from "./take-error.ts";
import type { PastedOptions } from "./take-options.ts";

/** A table as understood: checked, and in the words of a job file. */
export type Pasted = {
  readonly table: ReadingsTable;
  /** Head and rows in the job's words; every cell knows where it stood. */
  readonly head: readonly Cell[];
  readonly rows: readonly CellRow[];
  readonly parting: Delimiter;
  readonly decimal: DecimalMark;
  /** Columns and lines that were not taken over. */
  readonly leftOut: readonly string[];
};

type Read = { readonly pasted?: Pasted; readonly diagnostics: readonly Diagnostic[] };

/** Readings from a spreadsheet, a logger or a clipboard. Every fault has its place in their text. Pure: `file` only names it. */
export function readPasted(
  file: string,
  text: string,
  asked: PastedOptions,
  bench: Pick<ReadingsOptions, "units" | "reads">,
): Read {
  const fault = faultsIn(file);
  const none = notATable(text, fault);
  if (none) return { diagnostics: [none] };
  const found = findTable(file, text, asked, fault);
  if (found.diagnostics.length > 0) return { diagnostics: found.diagnostics };
  const { parting, head, body, above } = found;
  const { columns, notes, leftOut, faults: unsorted } = sortColumns(head, asked, fault);
  if (unsorted.length > 0) return { diagnostics: unsorted };
  const units = columns.map((column) => unitOf(column, asked, bench));
  const wrong = columns.flatMap((column, index) => {
    const own = units[index]!;
    return "fault" in own ? [fault("take/unit", own.fault, column.at, own.hint)] : [];
  });
  if (wrong.length > 0) return { diagnostics: wrong };
  const uneven = body.filter(isFilled).flatMap((row) => wrongWidth(row, head.length, notes, parting, fault));
  if (uneven.length > 0) return { diagnostics: uneven.slice(0, 20) };
  const numbers = body.flatMap(({ cells }) => columns.flatMap(({ index }) => cells[index] ?? []));
  const { mark, faults } = decimalMark(numbers, asked.decimal, fault);
  if (faults.length > 0) return { diagnostics: faults };

  const rows = body.map((row) => plainRow(row, columns, notes, mark));
  const heads = columns.map(({ name, at }, index): Cell => {
    const unit = (units[index] as { readonly unit?: string }).unit;
    return { ...at, text: unit === undefined ? name : `${name}/${unit}` };
  });
  const { table, diagnostics } = parseReadingsTable([{ cells: heads }, ...rows], {
    ...bench,
    at: (start, end) => ({ file, start, end }),
  });
  if (!table) return { diagnostics };
  const lines = above > 0 ? [`${above} line${above === 1 ? "" : "s"} above the head`] : [];
  return { pasted: { table, head: heads, rows, parting, decimal: mark, leftOut: [...lines, ...leftOut] }, diagnostics };
}

function notATable(text: string, fault: CreateFault): Diagnostic | undefined {
  if (text.trim() === "")
    return fault("take/empty", "there is nothing here", { start: 0, end: 0 }, "copy the table with its head line");
  if (/^\s*</.test(text)) {
    const hint = "copy the table alone, or export it as CSV";
    return fault("take/not-a-table", "this is a web page, not a table", { start: 0, end: 1 }, hint);
  }
  const broken = SPREADSHEET_FAULT.exec(text);
  return broken
    ? fault(
        "take/spreadsheet-fault",
        `\`${broken[0]}\` is a fault of the spreadsheet, not a reading`,
        { start: broken.index, end: broken.index + broken[0].length },
        "mend its formula, or write - for a reading that was not taken",
      )
    : undefined;
}

/** The rows under their head, cut by the first separator that gives one. */
function findTable(file: string, text: string, asked: PastedOptions, fault: CreateFault) {
  const partings = asked.parting === undefined ? PARTINGS : [asked.parting];
  const found = partings.map((parting) => {
    const { rows, diagnostics } = cutRows(file, text, parting);
    return { parting, rows, diagnostics, ...findHead(rows, parting, text, asked) };
  });
  const best = found.find(({ head }) => head.length > 0) ?? found[0]!;
  const first = best.rows.find(isFilled);
  if (best.diagnostics.length > 0 || (best.head.length > 0 && first)) return best;
  const cells = first?.cells ?? [];
  const message =
    first && isNumbers(first) ? "no line names the columns" : "no line with a column `lift` beside a reading was found";
  const whole = { start: cells[0]?.start ?? 0, end: cells.at(-1)?.end ?? 1 };
  const hint = "say what the columns are: --columns lift,intake,exhaust (with - for one to leave out)";
  return { ...best, diagnostics: [fault("take/head", message, whole, hint)] };
}

function wrongWidth(
  row: CellRow,
  columns: number,
  notes: readonly number[],
  parting: Delimiter,
  fault: CreateFault,
): Diagnostic[] {
  const cells = withoutEmptyEnd(row.cells, columns);
  // Words that nobody wrote may be missing at a row's end.
  const missing = Array.from({ length: Math.max(0, columns - cells.length) }, (_, index) => cells.length + index);
  if (cells.length <= columns && missing.every((index) => notes.includes(index))) return [];
  const whole = { start: cells[0]!.start, end: cells.at(-1)!.end };
  const has = `row \`${cells[0]!.text.slice(0, 40)}\` has ${cells.length} ${cells.length === 1 ? "value" : "values"}, the head names ${columns} columns`;
  if (cells.length < columns) return [fault("take/row", has, whole, "write - for a reading that was not taken")];
  const hint =
    parting === ","
      ? "do commas part both cells and decimals? Export with ; or tabs between the cells, or paste from the spreadsheet"
      : "delete what is too much, or name its column in the head";
  return [fault("take/row", has, whole, hint)];
}

/** A row in the job's words, with what was noted beside it as its comment. */
function plainRow(row: CellRow, columns: readonly Column[], notes: readonly number[], mark: DecimalMark): CellRow {
  if (!isFilled(row)) return { ...row, cells: [] };
  const end = row.cells.at(-1)!.end;
  const cells = columns.map(({ index }) => plainCell(row.cells[index] ?? { text: "", start: end, end }, mark));
  const words = [...notes.map((index) => row.cells[index]), row.comment].flatMap((note) => (note?.text ? [note] : []));
  const text = words.map((note) => note.text.replace(/[\s#]+/g, " ").trim()).join("; ");
  return { cells, ...(words[0] && { comment: { ...words[0], text } }) };
}

/** A cell in the job's words: nothing typed and `n/a` are `-`, a decimal comma is a point, blanks part no more. */
function plainCell(cell: Cell, mark: DecimalMark): Cell {
  if (cell.text === "" || MISSING.test(cell.text) || /^(-{2,}|n\/?a|nan|null|none)$/i.test(cell.text))
    return { ...cell, text: "-" };
  return { ...cell, text: gluedCell(mark === "comma" ? withPoint(cell.text) : cell.text) };
}
