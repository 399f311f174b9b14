import type { Diagnostic, Span } from "../../diagnostics/diagnostic.ts";
import type { Cell, CellRow } from "../../parse/parse-delimited.ts";
import { parseQuantity, type Quantity } from "../../units/parse-quantity.ts";
import type { Metres, Pascals } from "../../units/quantity.ts";
import type { Kind } from "../../units/table.ts";
import { shorten } from "../../util/shorten.ts";
import { type Column, type ColumnName, type ReadingsOptions, spanOf, trimmedEnd } from "./readings-head.ts";
import { gluedCells, wrongLength } from "./row-length.ts";

type ReadingKind = "good" | "doubtful" | "noisy" | "struck out" | "missing";

/** A reading as typed: flow [m³/s], or for a percent bench the share of its range [1]. Missing ones have no value. */
export type ReadingCell = {
  readonly kind: ReadingKind;
  readonly value?: number;
  readonly text: string;
  readonly decimals?: number;
  readonly resolution?: number;
  /** The comment behind `#` on the line of a missing or struck-out reading. */
  readonly reason?: string;
  readonly span: Span;
};

/** A number in SI with its text as typed. */
type NumberCell<T extends number> = {
  readonly value: T;
  readonly text: string;
  readonly decimals: number;
  readonly resolution: number;
  readonly span: Span;
};

type RangeCell = { readonly text: string; readonly span: Span };
type BothSides<T> = { readonly intake?: T; readonly exhaust?: T };

export type ReadingsRow = {
  readonly lift: NumberCell<Metres>;
  /** The lift was typed before, or belongs to a sweep after the table's highest lift. */
  readonly repeat: boolean;
  readonly readings: BothSides<ReadingCell>;
  readonly pressure: BothSides<NumberCell<Pascals>>;
  readonly range: BothSides<RangeCell>;
  readonly span: Span;
};

export const MISSING = /^[-\u2010-\u2015\u2212]$/;

/** Removes the blanks that a spreadsheet's cell may hold, before a unit or in `1 1/4`: in a typed table blanks part cells. */
export const joinCellParts = (text: string): string => text.replace(/(\d)\s+(?=\d+\/\d)/g, "$1-").replace(/\s+/g, "");

/** A row being parsed, the columns and options of its table, and the errors found so far. */
type RowInput = {
  readonly cells: readonly Cell[];
  readonly comment?: Cell;
  readonly columns: readonly Column[];
  readonly options: ReadingsOptions;
  readonly faults: Diagnostic[];
};

/** Parses one row of a table; `row` is there only without errors. */
export function parseRow(
  { cells: typed, comment }: CellRow,
  columns: readonly Column[],
  options: ReadingsOptions,
  usualDecimals: (column: number) => number | undefined = () => undefined,
): { readonly row?: ReadingsRow; readonly faults: readonly Diagnostic[] } {
  const cells = trimmedEnd(typed, columns.length);
  if (cells.length !== columns.length)
    return { faults: [gluedCells(cells, columns, options, usualDecimals) ?? wrongLength(cells, columns, options)] };
  const faults: Diagnostic[] = [];
  const input: RowInput = { cells, ...(comment && { comment }), columns, options, faults };
  const lift = parseLift(input);
  const readings = pairOf(parseReading("intake", input), parseReading("exhaust", input));
  const pressure = parseBothSides("pressure", input, parsePressure);
  const range = parseBothSides("range", input, (cell): RangeCell => ({ text: cell.text, span: placeOf(cell, input) }));
  if (!lift || faults.length > 0) return { faults };
  return { row: { lift, repeat: false, readings, pressure, range, span: spanOf(cells, options) }, faults };
}

const placeOf = ({ start, end }: Cell, { options }: RowInput): Span => options.at(start, end);

const columnNamed = (name: ColumnName, { columns }: RowInput) => columns.findIndex((column) => column.name === name);

function refuse(input: RowInput, cell: Cell, code: Diagnostic["code"], message: string, hint?: string): undefined {
  input.faults.push({ severity: "error", code, message, at: placeOf(cell, input), ...(hint && { hint }) });
}

/** Parses a cell's number; `text` is the cell without its marks. */
function parseNumber<K extends Kind>(
  input: RowInput,
  column: number,
  kind: K,
  text = input.cells[column]!.text,
): Quantity<K> | undefined {
  const read = parseQuantity(text, kind, input.columns[column]?.unit);
  return read.ok ? read : refuse(input, input.cells[column]!, read.code, read.message, read.hint);
}

function parseReading(side: "intake" | "exhaust", input: RowInput): ReadingCell | undefined {
  const column = columnNamed(side, input);
  const cell = input.cells[column];
  if (!cell) return undefined;
  const span = placeOf(cell, input);
  const reason = input.comment?.text ? { reason: input.comment.text } : {};
  if (isMissing(cell)) return { kind: "missing", text: cell.text, ...reason, span };
  const [, struck = "", text = "", marks = ""] = /^(~?)(.*?)([?!]*)$/s.exec(cell.text) ?? [];
  if (marks.length > 1 || (struck && marks)) {
    const message = `\`${shorten(cell.text)}\` has more than one mark`;
    const hint = `write one of ~${text} struck out, ${text}? doubtful, ${text}! noisy`;
    return refuse(input, cell, "job/readings-mark", message, hint);
  }
  const read = parseNumber(input, column, input.options.reads === "percent" ? "ratio" : "flow", text);
  if (!read) return undefined;
  const { value, decimals, resolution } = read;
  if (value < 0) {
    const message = `\`${shorten(text)}\` is below zero`;
    return refuse(input, cell, "job/readings-value", message, "write - for a reading that was not taken");
  }
  if (struck) return { kind: "struck out", value, text, decimals, resolution, span, ...reason };
  const kind = marks === "?" ? "doubtful" : marks === "!" ? "noisy" : "good";
  return { kind, value, text, decimals, resolution, span };
}

function parseLift(input: RowInput): NumberCell<Metres> | undefined {
  const column = columnNamed("lift", input);
  const cell = input.cells[column]!;
  if (isMissing(cell) || /^~|[?!]$/.test(cell.text)) {
    const message = "a lift must be a number without a mark";
    return refuse(input, cell, "job/readings-lift", message, "mark the reading itself: 118? or ~118");
  }
  const read = parseNumber(input, column, "length");
  if (!read) return undefined;
  const { value, decimals, resolution } = read;
  if (value <= 0) {
    const what = value < 0 ? "is below zero" : "is no lift: the valve is shut";
    const hint =
      value < 0 ? "write it without the minus" : "state what flows past a shut valve as bench: { leakage: … }";
    return refuse(input, cell, "job/readings-lift", `\`${shorten(cell.text)}\` ${what}`, hint);
  }
  return { value, text: cell.text, decimals, resolution, span: placeOf(cell, input) };
}

function parsePressure(cell: Cell, column: number, input: RowInput): NumberCell<Pascals> | undefined {
  const read = parseNumber(input, column, "pressure");
  if (!read) return undefined;
  const { value, decimals, resolution } = read;
  if (value <= 0) {
    const message = `\`${shorten(cell.text)}\` is not above zero`;
    return refuse(input, cell, "job/readings-value", message, "write the size of the depression, without a sign");
  }
  return { value, text: cell.text, decimals, resolution, span: placeOf(cell, input) };
}

/** Parses each side's own column, else the one that serves both. */
function parseBothSides<T>(
  name: "pressure" | "range",
  input: RowInput,
  parse: (cell: Cell, column: number, input: RowInput) => T | undefined,
): BothSides<T> {
  const at = (column: number) => {
    const cell = input.cells[column];
    return cell === undefined || isMissing(cell) ? undefined : parse(cell, column, input);
  };
  const shared = at(columnNamed(name, input));
  return pairOf(at(columnNamed(`${name}_i`, input)) ?? shared, at(columnNamed(`${name}_e`, input)) ?? shared);
}

const isMissing = ({ text }: Cell) => text === "" || MISSING.test(text);

/** A pair without keys for absent values; a table has hundreds of pairs. */
function pairOf<T>(intake: T | undefined, exhaust: T | undefined): BothSides<T> {
  if (intake === undefined) return exhaust === undefined ? NEITHER : { exhaust };
  return exhaust === undefined ? { intake } : { intake, exhaust };
}

const NEITHER = {};
