import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import type { Cell, CellRow } from "../../parse/parse-delimited.ts";
import { shorten } from "../../util/shorten.ts";
import { type Column, type ReadingsOptions, spanOf } from "./readings-head.ts";

/** The error of a row with fewer or more values than the head names columns. */
export function wrongLength(cells: readonly Cell[], columns: readonly Column[], options: ReadingsOptions): Diagnostic {
  const at = spanOf(cells.length > columns.length ? cells.slice(columns.length) : cells, options);
  return { severity: "error", code: "job/readings-row", at, ...wrongLengthWords(cells, columns.length) };
}

/** What is said of a row with fewer or more values than columns. */
export function wrongLengthWords(cells: readonly Cell[], columns: number) {
  const values = `${cells.length} ${cells.length === 1 ? "value" : "values"}`;
  return {
    message: `row \`${shorten(cells[0]!.text)}\` has ${values}, the head names ${columns} columns`,
    hint:
      cells.length > columns
        ? "delete what is too much, or name its column in the head"
        : "write - for a reading that was not taken",
  };
}

/** What is said of a table whose rows all have more values than its head names: one slip, in the head. */
export function unnamedColumns(rows: readonly CellRow[], columns: readonly Column[]) {
  const most = rows[0]!.cells.length;
  if (rows.length < 2 || most <= columns.length || rows.some(({ cells }) => cells.length !== most)) return undefined;
  const names = columns.map(({ name }) => name);
  const other = names.includes("intake") ? "exhaust" : "intake";
  const isSide = most === 3 && names.join() === `lift,${other === "intake" ? "exhaust" : "intake"}`;
  return {
    message: `each row has ${most} values, the head names ${columns.length} columns`,
    hint: isSide ? `write ${["lift", "intake", "exhaust"].join(" ")}` : "name all columns in the head",
  };
}

const isGlued = ({ text }: Cell) => /^~?\d*\.\d+\.\d+[?!]?$/.test(text);
const looksGlued = ({ cells }: CellRow) => cells.some(isGlued);

/** The error of two numbers without a blank between them, in a row that is one value short: `0.250118.3`. */
export function gluedCells(
  cells: readonly Cell[],
  columns: readonly Column[],
  options: ReadingsOptions,
  usualDecimals: (column: number) => number | undefined,
): Diagnostic | undefined {
  if (cells.length !== columns.length - 1) return undefined;
  const column = cells.findIndex(isGlued);
  const cell = cells[column];
  const decimals = cell && usualDecimals(column);
  if (!cell || decimals === undefined) return undefined;
  const end = cell.text.indexOf(".") + 1 + decimals;
  const [one, other] = [cell.text.slice(0, end), cell.text.slice(end)];
  if (!/^\d/.test(other)) return undefined;
  return {
    severity: "error",
    code: "job/readings-row",
    message: `\`${shorten(cell.text)}\` looks like two numbers: a blank is missing between them`,
    at: options.at(cell.start, cell.end),
    hint: `write ${one} ${other}`,
  };
}

/**
 * The rows of a table with the readings that its last rows do not have yet, as not taken, and a warning that names them. A table grows
 * row by row, or a side at a time from its top: so a short row with a whole one below it is a mistake, and stays as it is.
 */
export function completeLastRows(
  rows: readonly CellRow[],
  columns: readonly Column[],
  options: ReadingsOptions,
): { readonly rows: readonly CellRow[]; readonly faults: readonly Diagnostic[] } {
  const from = rows.findLastIndex(({ cells }) => cells.length >= columns.length) + 1;
  const short = rows.slice(from);
  const least = Math.min(...short.map(({ cells }) => cells.length));
  const lacking = columns.slice(least).map(({ name }) => name);
  const isSide = (name: Column["name"]) => name === "intake" || name === "exhaust";
  if (short.length === 0 || columns[0]?.name !== "lift" || !lacking.every(isSide) || short.some(looksGlued))
    return { rows, faults: [] };
  const complete = short.map((row) => {
    const { end } = row.cells.at(-1)!;
    return { ...row, cells: columns.map((_, column) => row.cells[column] ?? { text: "-", start: end, end }) };
  });
  const which = short.length === 1 ? "the last row has" : `the last ${short.length} rows have`;
  const fault: Diagnostic = {
    severity: "warning",
    code: "job/readings-unfinished",
    message: `${which} no ${lacking.join(" and no ")}`,
    at: spanOf(short[0]!.cells, options),
    note: "taken as not measured yet",
    hint: "write - for a reading that was not taken",
  };
  return { rows: [...rows.slice(0, from), ...complete], faults: [fault] };
}
