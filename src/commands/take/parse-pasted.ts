import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import type { ReadingsOptions } from "../../job/readings/readings-head.ts";
import { joinCellParts, MISSING } from "../../job/readings/readings-row.ts";
import { parseReadingsTable, type ReadingsTable } from "../../job/readings/readings-table.ts";
import { wrongLengthWords } from "../../job/readings/row-length.ts";
import type { Cell, CellRow } from "../../parse/parse-delimited.ts";
import { type DecimalMark, detectDecimalMark, toDecimalPoint } from "./decimal-mark.ts";
import { findHead, trimEmptyCells } from "./find-head.ts";
import { assignColumns, type Column, columnUnit } from "./sort-columns.ts";
import { DELIMITERS, type Delimiter, isFilled, isNumberRow, SPREADSHEET_ERROR, splitRows } from "./split-rows.ts";
import { createErrorBuilder, type ErrorBuilder } from "./take-error.ts";
import type { PastedOptions } from "./take-options.ts";

/** A validated table; its columns are named as in a job file. */
export type PastedTable = {
  readonly table: ReadingsTable;
  /** Head and rows as a job file has them; each cell keeps its span in the source. */
  readonly head: readonly Cell[];
  readonly rows: readonly CellRow[];
  readonly delimiter: Delimiter;
  readonly decimal: DecimalMark;
  /** Columns and lines that were skipped. */
  readonly leftOut: readonly string[];
};

type ParseResult = { readonly pasted?: PastedTable; readonly diagnostics: readonly Diagnostic[] };

/** Parses readings from a spreadsheet, logger or clipboard; errors point into their text. Pure: `file` is a name only. */
export function parsePasted(
  file: string,
  text: string,
  options: PastedOptions,
  bench: Pick<ReadingsOptions, "units" | "reads">,
): ParseResult {
  const fault = createErrorBuilder(file);
  const none = checkText(text, fault);
  if (none) return { diagnostics: [none] };
  const found = findTable(file, text, options, fault);
  if (found.diagnostics.length > 0) return { diagnostics: found.diagnostics };
  const { delimiter, head, above } = found;
  const [body, summaries] = splitSummaries(found.body);
  const { columns, notes, leftOut, faults: unsorted } = assignColumns(head, options, fault);
  if (unsorted.length > 0) return { diagnostics: unsorted };
  const units = columns.map((column) => columnUnit(column, options, bench));
  const wrong = columns.flatMap((column, index) => {
    const own = units[index]!;
    return "fault" in own ? [fault("take/unit", own.fault, column.at, own.hint)] : [];
  });
  if (wrong.length > 0) return { diagnostics: wrong };
  const uneven = body.filter(isFilled).flatMap((row) => checkRowWidth(row, head.length, notes, delimiter, fault));
  if (uneven.length > 0) return { diagnostics: uneven.slice(0, 20) };
  const numbers = body.flatMap(({ cells }) => columns.flatMap(({ index }) => cells[index] ?? []));
  const { mark, faults } = detectDecimalMark(numbers, options.decimal, fault);
  if (faults.length > 0) return { diagnostics: faults };

  const rows = body.map((row) => normalizeRow(row, columns, notes, mark));
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
  return {
    pasted: { table, head: heads, rows, delimiter, decimal: mark, leftOut: [...lines, ...leftOut, ...summaries] },
    diagnostics,
  };
}

/** Names of rows that a spreadsheet computes from the others. */
const SUMMARY = /^(max|min|peak|total|sum|mean|average|avg|median|gain|change|difference)(imum|imal|s)?\b\W*$/i;

/** Parts the rows of readings from those that sum them up, which are named. */
function splitSummaries(rows: readonly CellRow[]): readonly [readings: readonly CellRow[], left: readonly string[]] {
  const nameOf = ({ cells }: CellRow) => SUMMARY.exec(cells.find(({ text }) => text !== "")?.text ?? "")?.[0];
  return [
    rows.filter((row) => nameOf(row) === undefined),
    rows.flatMap((row) => {
      const name = nameOf(row);
      return name === undefined ? [] : [`row \`${name}\``];
    }),
  ];
}

function checkText(text: string, fault: ErrorBuilder): Diagnostic | undefined {
  if (text.trim() === "")
    return fault("take/empty", "there is nothing here", { start: 0, end: 0 }, "copy the table with its head line");
  if (/^\s*</.test(text)) {
    const hint = "copy the table alone, or export it as CSV";
    return fault("take/not-a-table", "this is a web page, not a table", { start: 0, end: 1 }, hint);
  }
  const broken = SPREADSHEET_ERROR.exec(text);
  return broken
    ? fault(
        "take/spreadsheet-fault",
        `\`${broken[0]}\` is a fault of the spreadsheet, not a reading`,
        { start: broken.index, end: broken.index + broken[0].length },
        "mend its formula, or write - for a reading that was not taken",
      )
    : undefined;
}

/** Splits the text by the first delimiter that gives a head with rows. */
function findTable(file: string, text: string, options: PastedOptions, fault: ErrorBuilder) {
  const delimiters = options.delimiter === undefined ? DELIMITERS : [options.delimiter];
  const found = delimiters.map((delimiter) => {
    const { rows, diagnostics } = splitRows(file, text, delimiter);
    return { delimiter, rows, diagnostics, ...findHead(rows, delimiter, text, options) };
  });
  const best = found.find(({ head }) => head.length > 0) ?? found[0]!;
  const first = best.rows.find(isFilled);
  if (best.diagnostics.length > 0 || (best.head.length > 0 && first)) return best;
  const cells = first?.cells ?? [];
  const message =
    first && isNumberRow(first)
      ? "no line names the columns"
      : "no line with a column `lift` beside a reading was found";
  const whole = { start: cells[0]?.start ?? 0, end: cells.at(-1)?.end ?? 1 };
  const hint = "say what the columns are: --columns lift,intake,exhaust (with - for one to leave out)";
  return { ...best, diagnostics: [fault("take/head", message, whole, hint)] };
}

function checkRowWidth(
  row: CellRow,
  columns: number,
  notes: readonly number[],
  delimiter: Delimiter,
  fault: ErrorBuilder,
): Diagnostic[] {
  const cells = trimEmptyCells(row.cells, columns);
  // Empty notes may be missing at the end of a row.
  const missing = Array.from({ length: Math.max(0, columns - cells.length) }, (_, index) => cells.length + index);
  if (cells.length <= columns && missing.every((index) => notes.includes(index))) return [];
  const whole = { start: cells[0]!.start, end: cells.at(-1)!.end };
  const { message, hint } = wrongLengthWords(cells, columns);
  const atCommas =
    "do commas part both cells and decimals? Export with ; or tabs between the cells, or paste from the spreadsheet";
  return [fault("take/row", message, whole, cells.length > columns && delimiter === "," ? atCommas : hint)];
}

/** Normalises a row for a job file; its notes become the comment. */
function normalizeRow(row: CellRow, columns: readonly Column[], notes: readonly number[], mark: DecimalMark): CellRow {
  if (!isFilled(row)) return { ...row, cells: [] };
  const end = row.cells.at(-1)!.end;
  const cells = columns.map(({ index }) => normalizeCell(row.cells[index] ?? { text: "", start: end, end }, mark));
  const words = [...notes.map((index) => row.cells[index]), row.comment].flatMap((note) => (note?.text ? [note] : []));
  const text = words.map((note) => note.text.replace(/[\s#]+/g, " ").trim()).join("; ");
  return { cells, ...(words[0] && { comment: { ...words[0], text } }) };
}

/** Normalises a cell: empty and `n/a` become `-`, a decimal comma a point, inner blanks go. */
function normalizeCell(cell: Cell, mark: DecimalMark): Cell {
  if (cell.text === "" || MISSING.test(cell.text) || /^(-{2,}|n\/?a|nan|null|none)$/i.test(cell.text))
    return { ...cell, text: "-" };
  return { ...cell, text: joinCellParts(mark === "comma" ? toDecimalPoint(cell.text) : cell.text) };
}
