import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import type { Cell } from "../../parse/parse-delimited.ts";
import { type Column, type ReadingsOptions, spanOf } from "./readings-head.ts";

/** The error of a row with fewer or more values than the head names columns. */
export function wrongLength(cells: readonly Cell[], columns: readonly Column[], options: ReadingsOptions): Diagnostic {
  const long = cells.length > columns.length;
  const values = `${cells.length} ${cells.length === 1 ? "value" : "values"}`;
  return {
    severity: "error",
    code: "job/readings-row",
    message: `row \`${cells[0]!.text.slice(0, 40)}\` has ${values}, the head names ${columns.length} columns`,
    at: spanOf(long ? cells.slice(columns.length) : cells, options),
    hint: long ? "delete what is too much, or name its column in the head" : "write - for a reading that was not taken",
  };
}

/** The error of two numbers without a blank between them, in a row that is one value short: `0.250118.3`. */
export function gluedCells(
  cells: readonly Cell[],
  columns: readonly Column[],
  options: ReadingsOptions,
  usualDecimals: (column: number) => number | undefined,
): Diagnostic | undefined {
  if (cells.length !== columns.length - 1) return undefined;
  const column = cells.findIndex(({ text }) => /^~?\d*\.\d+\.\d+[?!]?$/.test(text));
  const cell = cells[column];
  const decimals = cell && usualDecimals(column);
  if (!cell || decimals === undefined) return undefined;
  const end = cell.text.indexOf(".") + 1 + decimals;
  const [one, other] = [cell.text.slice(0, end), cell.text.slice(end)];
  if (!/^\d/.test(other)) return undefined;
  return {
    severity: "error",
    code: "job/readings-row",
    message: `\`${cell.text.slice(0, 40)}\` looks like two numbers: a blank is missing between them`,
    at: options.at(cell.start, cell.end),
    hint: `write ${one} ${other}`,
  };
}
