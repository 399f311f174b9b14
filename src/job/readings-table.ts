import type { Diagnostic, Span } from "../diagnostics/diagnostic.ts";
import { didYouMean } from "../diagnostics/did-you-mean.ts";
import type { Cell, CellRow } from "../source/read-delimited.ts";
import { parseQuantity, type Quantity } from "../units/parse-quantity.ts";
import type { Metres, Pascals } from "../units/quantity.ts";
import { acceptedUnits, findUnit, type Kind } from "../units/table.ts";

export type ReadingKind = "good" | "doubtful" | "noisy" | "struck out" | "missing";

/** A reading as typed: flow [m³/s], or for a percent bench the share of its range [1]. Missing ones have no value. */
export type ReadingCell = {
  readonly kind: ReadingKind;
  readonly value?: number;
  readonly text: string;
  readonly decimals?: number;
  readonly resolution?: number;
  /** What stands behind `#` on the line of a missing or struck-out reading. */
  readonly reason?: string;
  readonly span: Span;
};

/** A number in SI with what was typed. */
export type NumberCell<T extends number> = {
  readonly value: T;
  readonly text: string;
  readonly decimals: number;
  readonly resolution: number;
  readonly span: Span;
};

export type RangeCell = { readonly text: string; readonly span: Span };
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

export const COLUMNS = [
  "lift",
  "intake",
  "exhaust",
  "pressure",
  "pressure_i",
  "pressure_e",
  "range",
  "range_i",
  "range_e",
] as const;
export type ColumnName = (typeof COLUMNS)[number];
export type Column = { readonly name: ColumnName; readonly unit: string | undefined; readonly span: Span };

export type ReadingsTable = { readonly columns: readonly Column[]; readonly rows: readonly ReadingsRow[] };

export type ReadingsOptions = {
  /** Units that bare numbers take, by name; undefined where nobody declared one. */
  readonly units: { readonly length?: string; readonly flow?: string; readonly pressure?: string };
  readonly reads: "flow" | "percent";
  /** Where characters [start, end) of the table's text stand in its file. */
  readonly at: (start: number, end: number) => Span;
};

export type ReadReadings = { readonly table: ReadingsTable | undefined; readonly diagnostics: readonly Diagnostic[] };

export const MISSING = /^[-\u2010-\u2015\u2212]$/;

/** A cell from a spreadsheet may hold a blank before its unit, or in `1 1/4`; in a table of ours blanks part cells. */
export const gluedCell = (text: string): string => text.replace(/(\d)\s+(?=\d+\/\d)/g, "$1-").replace(/\s+/g, "");

/** The text of a literal block as rows of cells, with their places in that text. */
export function readingsRows(text: string): readonly CellRow[] {
  let start = 0;
  const rows: CellRow[] = [];
  for (const line of text.split("\n")) {
    const hash = line.indexOf("#");
    const end = hash < 0 ? line.length : hash;
    const cells: Cell[] = [];
    const words = /[^\s\u00a0]+/g;
    const typed = hash < 0 ? line : line.slice(0, end);
    for (let word = words.exec(typed); word !== null; word = words.exec(typed))
      cells.push({ text: word[0], start: start + word.index, end: start + words.lastIndex });
    if (hash >= 0) {
      const comment = { text: line.slice(end + 1).trim(), start: start + end, end: start + line.trimEnd().length };
      rows.push({ cells, comment });
    } else if (cells.length > 0) rows.push({ cells });
    start += line.length + 1;
  }
  return rows;
}

/** A readings table, from a literal block or from a file. Every fault is told; `table` is there only when there are none. */
export function parseReadingsTable(cellRows: readonly CellRow[], options: ReadingsOptions): ReadReadings {
  const filled = cellRows.filter((row) => row.cells.some((cell) => cell.text !== ""));
  const [head, ...body] = filled;
  const nowhere = options.at(0, 0);
  const only = (code: Diagnostic["code"], message: string, at: Span, hint: string): ReadReadings => ({
    table: undefined,
    diagnostics: [{ severity: "error", code, message, at, hint }],
  });
  const example = "begin with a line such as: lift intake exhaust";
  if (!head) return only("job/readings-head", "the readings table is empty", nowhere, example);
  if (/^[~\d.]/.test(head.cells[0]!.text)) {
    const message = "the readings table has no head that names its columns";
    return only("job/readings-head", message, spanOf(head.cells, options), example);
  }

  const { columns, faults } = readHead(head, options);
  if (faults.length > 0) return { table: undefined, diagnostics: faults };
  if (body.length === 0) {
    const at = spanOf(head.cells, options);
    return only(
      "job/readings-head",
      "the readings table has a head and no readings",
      at,
      "type one line for each lift",
    );
  }
  const readRow = rowReader(columns, options);
  const rows: ReadingsRow[] = [];
  const found: Diagnostic[] = [];
  for (const cells of body) {
    const { row, faults: ofRow } = readRow(cells);
    if (row) rows.push(row);
    found.push(...ofRow);
  }
  const cellFaults = alikeTold(found);
  const sweeps = cellFaults.length === 0 ? inOrder(rows) : { rows, faults: [] };
  const diagnostics = [...cellFaults, ...sweeps.faults];
  return { table: diagnostics.length === 0 ? { columns, rows: sweeps.rows } : undefined, diagnostics };
}

const spanOf = (cells: readonly Cell[], { at }: ReadingsOptions) => at(cells[0]!.start, cells.at(-1)!.end);

/** `lift (mm)` between blanks is one name and its unit. */
function joined(cells: readonly Cell[]): readonly Cell[] {
  const out: Cell[] = [];
  for (const cell of cells) {
    const last = out.at(-1);
    if (last && /^[([]/.test(cell.text))
      out[out.length - 1] = { text: last.text + cell.text, start: last.start, end: cell.end };
    else out.push(cell);
  }
  return out;
}

/** What a column's numbers are numbers of; a range is a name. */
function kindOf(name: ColumnName, reads: ReadingsOptions["reads"]): Kind | undefined {
  if (name === "lift") return "length";
  if (name === "intake" || name === "exhaust") return reads === "percent" ? "ratio" : "flow";
  return name.startsWith("pressure") ? "pressure" : undefined;
}

function bareUnitOf(kind: Kind | undefined, { units }: ReadingsOptions): string | undefined {
  if (kind === "ratio") return "%";
  return kind === "length" || kind === "flow" || kind === "pressure" ? units[kind] : undefined;
}

function readHead(head: CellRow, options: ReadingsOptions) {
  const faults: Diagnostic[] = [];
  const columns: Column[] = [];
  const fault = (code: Diagnostic["code"], message: string, at: Span, hint: string) =>
    faults.push({ severity: "error", code, message, at, hint });

  for (const cell of trimmedEnd(joined(head.cells), 0)) {
    const parts = /^([^/([]*)(?:\/(.*)|[([]([^)\]]*)[)\]]?)?$/s.exec(cell.text);
    const [typed = "", slashed, bracketed] = parts?.slice(1) ?? [cell.text];
    const folded = typed
      .trim()
      .toLowerCase()
      .replace(/[\s-]+/g, "_");
    const name = COLUMNS.find((one) => one === folded);
    const span = options.at(cell.start, cell.end);
    if (!name) {
      const near = didYouMean(folded, COLUMNS);
      const hint = near ? `did you mean ${near}?` : `columns are ${COLUMNS.join(", ")}`;
      fault("job/readings-column", `\`${typed.slice(0, 40)}\` is not a column of a readings table`, span, hint);
      continue;
    }
    if (columns.some((one) => one.name === name)) {
      fault(
        "job/readings-column-twice",
        `two columns are named \`${name}\``,
        span,
        "name one of them differently, or delete it",
      );
      continue;
    }
    const kind = kindOf(name, options.reads);
    const unit = (slashed ?? bracketed)?.trim();
    const known = unit === undefined || kind === undefined ? undefined : findUnit(kind, unit);
    if (unit !== undefined && !known) {
      const what = kind === undefined ? "has no unit" : `is not measured in \`${unit.slice(0, 40)}\``;
      const hint = kind === undefined ? `write ${name}` : `write ${name}/ and one of ${acceptedUnits(kind)}`;
      fault("job/readings-unit", `the column \`${name}\` ${what}`, span, hint);
      continue;
    }
    columns.push({ name, unit: known?.name ?? bareUnitOf(kind, options), span });
  }

  const has = (name: ColumnName) => columns.some((one) => one.name === name);
  const at = spanOf(head.cells, options);
  if (faults.length === 0 && !has("lift")) {
    fault("job/readings-head", "the readings table has no column `lift`", at, "name the first column lift");
  } else if (faults.length === 0 && !has("intake") && !has("exhaust")) {
    fault(
      "job/readings-head",
      "the readings table has neither `intake` nor `exhaust`",
      at,
      "name the side that was flowed",
    );
  }
  return { columns, faults };
}

/** Spreadsheets end lines in empty cells; those beyond the columns say nothing. */
function trimmedEnd(cells: readonly Cell[], columns: number): readonly Cell[] {
  let end = cells.length;
  while (end > columns && cells[end - 1]!.text === "") end--;
  return cells.slice(0, end);
}

type ReadRow = { readonly row?: ReadingsRow; readonly faults: readonly Diagnostic[] };
/** Says what is wrong with a cell. */
type Complain = (cell: Cell, code: Diagnostic["code"], message: string, hint?: string) => void;

/** Reads the rows of one table. */
function rowReader(columns: readonly Column[], options: ReadingsOptions): (row: CellRow) => ReadRow {
  const place = (name: ColumnName) => columns.findIndex((column) => column.name === name);
  const places = { lift: place("lift"), intake: place("intake"), exhaust: place("exhaust") };
  const pressures = { both: place("pressure"), intake: place("pressure_i"), exhaust: place("pressure_e") };
  const ranges = { both: place("range"), intake: place("range_i"), exhaust: place("range_e") };

  function quantity<K extends Kind>(
    cell: Cell,
    text: string,
    kind: K,
    unit: string | undefined,
    complain: Complain,
  ): Quantity<K> | undefined {
    const read = parseQuantity(text, kind, unit);
    if (read.ok) return read;
    // Parts of the cell that are marks are the reader's business; the place is the whole cell's.
    complain(cell, read.code, read.message, read.hint);
    return undefined;
  }

  function reading({ cells, comment }: CellRow, index: number, complain: Complain): ReadingCell | undefined {
    const cell = cells[index];
    if (!cell) return undefined;
    const at = options.at(cell.start, cell.end);
    const reason = comment?.text ? { reason: comment.text } : {};
    if (cell.text === "" || MISSING.test(cell.text)) return { kind: "missing", text: cell.text, ...reason, span: at };
    const parts = MARKED.test(cell.text) ? /^(~?)(.*?)([?!]*)$/s.exec(cell.text) : null;
    const struck = parts?.[1] ?? "";
    const typed = parts?.[2] ?? cell.text;
    const marks = parts?.[3] ?? "";
    if (marks.length > 1 || (struck && marks)) {
      complain(
        cell,
        "job/readings-mark",
        `\`${cell.text.slice(0, 40)}\` has more than one mark`,
        "one of ~118 struck out, 118? doubtful, 118! noisy",
      );
      return undefined;
    }
    const kind = options.reads === "percent" ? "ratio" : "flow";
    const read = quantity(cell, typed, kind, columns[index]?.unit, complain);
    if (!read) return undefined;
    if (read.value < 0) {
      complain(
        cell,
        "job/readings-value",
        `\`${typed.slice(0, 40)}\` is below zero`,
        "write - for a reading that was not taken",
      );
      return undefined;
    }
    const { value, decimals, resolution } = read;
    if (struck) return { kind: "struck out", value, text: typed, decimals, resolution, span: at, ...reason };
    const mark = marks === "?" ? "doubtful" : marks === "!" ? "noisy" : "good";
    return { kind: mark, value, text: typed, decimals, resolution, span: at };
  }

  function lift(cell: Cell, complain: Complain): NumberCell<Metres> | undefined {
    if (cell.text === "" || /^~|[?!]$/.test(cell.text) || MISSING.test(cell.text)) {
      complain(
        cell,
        "job/readings-lift",
        "a lift must be a number without a mark",
        "mark the reading itself: 118? or ~118",
      );
      return undefined;
    }
    const read = quantity(cell, cell.text, "length", columns[places.lift]?.unit, complain);
    if (!read) return undefined;
    if (read.value <= 0) {
      const what = read.value < 0 ? "is below zero" : "is no lift: the valve is shut";
      const hint =
        read.value < 0 ? "write it without the minus" : "state what flows past a shut valve as bench: { leakage: … }";
      complain(cell, "job/readings-lift", `\`${cell.text.slice(0, 40)}\` ${what}`, hint);
      return undefined;
    }
    const { value, decimals, resolution } = read;
    return { value, text: cell.text, decimals, resolution, span: options.at(cell.start, cell.end) };
  }

  function pressure(cell: Cell, index: number, complain: Complain): NumberCell<Pascals> | undefined {
    const read = quantity(cell, cell.text, "pressure", columns[index]?.unit, complain);
    if (!read) return undefined;
    if (read.value <= 0) {
      complain(
        cell,
        "job/readings-value",
        `\`${cell.text.slice(0, 40)}\` is not above zero`,
        "write the size of the depression, without a sign",
      );
      return undefined;
    }
    const { value, decimals, resolution } = read;
    return { value, text: cell.text, decimals, resolution, span: options.at(cell.start, cell.end) };
  }

  const range = (cell: Cell): RangeCell => ({ text: cell.text, span: options.at(cell.start, cell.end) });

  /** Each side's own column, else the one that serves both. */
  function sides<T>(
    { both, intake, exhaust }: typeof pressures,
    cells: readonly Cell[],
    read: (cell: Cell, index: number) => T | undefined,
  ): BothSides<T> {
    if (both < 0 && intake < 0 && exhaust < 0) return NEITHER;
    const at = (index: number) => {
      const cell = cells[index];
      return !cell || cell.text === "" || MISSING.test(cell.text) ? undefined : read(cell, index);
    };
    const shared = at(both);
    return present(at(intake) ?? shared, at(exhaust) ?? shared);
  }

  return (row) => {
    const cells = trimmedEnd(row.cells, columns.length);
    if (cells.length !== columns.length) return { faults: [wrongLength(cells, columns, options)] };
    const faults: Diagnostic[] = [];
    const complain: Complain = (cell, code, message, hint) =>
      faults.push({ severity: "error", code, message, at: options.at(cell.start, cell.end), ...(hint && { hint }) });
    const lifted = lift(cells[places.lift]!, complain);
    const readings = present(reading(row, places.intake, complain), reading(row, places.exhaust, complain));
    const pressed = sides(pressures, cells, (cell, index) => pressure(cell, index, complain));
    const ranged = sides(ranges, cells, range);
    if (!lifted || faults.length > 0) return { faults };
    const span = spanOf(cells, options);
    return { row: { lift: lifted, repeat: false, readings, pressure: pressed, range: ranged, span }, faults };
  };
}

/** Whether a cell may carry one of the marks. */
const MARKED = /[~?!]/;

const NEITHER = {};

/** Without keys that hold nothing. */
function present<T>(intake: T | undefined, exhaust: T | undefined): BothSides<T> {
  if (intake === undefined) return exhaust === undefined ? NEITHER : { exhaust };
  return exhaust === undefined ? { intake } : { intake, exhaust };
}

function wrongLength(cells: readonly Cell[], columns: readonly Column[], options: ReadingsOptions): Diagnostic {
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

/** A slip made in every row, a comma for a point, is one slip: told at its first place, with the number of the others. */
function alikeTold(faults: readonly Diagnostic[]): readonly Diagnostic[] {
  if (faults.length < 2) return faults;
  const habits = new Set<string>(["units/decimal-comma", "units/missing-unit"]);
  return faults.flatMap((fault, index) => {
    if (!habits.has(fault.code)) return [fault];
    if (faults.findIndex(({ code }) => code === fault.code) < index) return [];
    const others = faults.filter(({ code }) => code === fault.code).length - 1;
    return [others > 0 ? { ...fault, note: `and ${others} more in this table` } : fault];
  });
}

/** Two lifts are the same when no dial could tell them apart [m]. */
const SAME_LIFT = 1e-9;

/** Marks repeats. Up to the table's highest lift, lifts may not fall: that is a slip of the pen, not a second sweep. */
function inOrder(rows: readonly ReadingsRow[]): { rows: readonly ReadingsRow[]; faults: readonly Diagnostic[] } {
  const highest = rows.reduce(
    (best, row, index) => (row.lift.value > rows[best]!.lift.value + SAME_LIFT ? index : best),
    0,
  );
  const falls = rows.findIndex(
    (row, index) => index > 0 && index < highest && row.lift.value < rows[index - 1]!.lift.value - SAME_LIFT,
  );
  const row = rows[falls];
  if (row) {
    const before = rows[falls - 1]!.lift.text;
    const fault: Diagnostic = {
      severity: "error",
      code: "job/readings-lift-order",
      message: `lift \`${row.lift.text}\` is below \`${before}\` in the row above`,
      at: row.lift.span,
      note: "lifts may fall only after the table's highest lift, as a second sweep",
      hint: "check both lifts",
    };
    return { rows, faults: [fault] };
  }
  const seen = new Set<number>();
  const marked = rows.map((one, index) => {
    const key = Math.round(one.lift.value / SAME_LIFT);
    const repeat = index > highest || seen.has(key);
    seen.add(key);
    return repeat ? { ...one, repeat } : one;
  });
  return { rows: marked, faults: [] };
}
