import type { Diagnostic, Span } from "../../diagnostics/diagnostic.ts";
import type { Cell, CellRow } from "../../parse/parse-delimited.ts";
import { fallingLift } from "./falling-lift.ts";
import { type Column, type ReadingsOptions, readHead, spanOf } from "./readings-head.ts";
import { parseRow, type ReadingsRow } from "./readings-row.ts";
import { completeLastRows, unnamedColumns } from "./row-length.ts";
import { splitAtCommas } from "./split-at-commas.ts";

export type ReadingsTable = { readonly columns: readonly Column[]; readonly rows: readonly ReadingsRow[] };

type ReadReadings = { readonly table: ReadingsTable | undefined; readonly diagnostics: readonly Diagnostic[] };

/** Splits the text of a literal block into rows of cells with their offsets in it. */
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

/** Parses a readings table, from a literal block or from a file; `table` is there only without errors. */
export function parseReadingsTable(cellRows: readonly CellRow[], options: ReadingsOptions): ReadReadings {
  const typed = cellRows.filter((row) => row.cells.some((cell) => cell.text !== ""));
  const commas = splitAtCommas(typed, options);
  const [head, ...body] = commas.rows;
  const top = options.at(0, 0);
  const only = (code: Diagnostic["code"], message: string, at: Span, hint: string): ReadReadings => ({
    table: undefined,
    diagnostics: [{ severity: "error", code, message, at, hint }],
  });
  const example = "begin with a line such as: lift intake exhaust";
  if (!head) return only("job/readings-head", "the readings table is empty", top, example);
  if (/^[~\d.]/.test(head.cells[0]!.text)) {
    const message = "the readings table has no head that names its columns";
    return only("job/readings-head", message, spanOf(head.cells, options), example);
  }

  const { columns, faults } = readHead(head, options);
  if (faults.length > 0) return { table: undefined, diagnostics: [...commas.faults, ...faults] };
  if (body.length === 0) {
    const at = spanOf(head.cells, options);
    return only(
      "job/readings-head",
      "the readings table has a head and no readings",
      at,
      "type one line for each lift",
    );
  }
  const unnamed = unnamedColumns(body, columns);
  if (unnamed) return only("job/readings-head", unnamed.message, spanOf(head.cells, options), unnamed.hint);
  const decimals = usualDecimals(body, columns.length);
  const unfinished = options.grows ? completeLastRows(body, columns, options) : undefined;
  const parsed = (unfinished?.rows ?? body).map((row) => parseRow(row, columns, options, decimals));
  const rows = parsed.flatMap(({ row }) => row ?? []);
  const cellFaults = collapseRepeats(parsed.flatMap((one) => one.faults));
  const sweeps = cellFaults.length + commas.faults.length === 0 ? markRepeats(rows) : { rows, faults: [] };
  const errors = [...commas.faults, ...cellFaults, ...sweeps.faults];
  return {
    table: errors.length === 0 ? { columns, rows: sweeps.rows } : undefined,
    diagnostics: [...errors, ...(unfinished?.faults ?? [])],
  };
}

/** Most frequent number of digits after the point in a column, over the rows of the right length. */
const usualDecimals = (rows: readonly CellRow[], columns: number) => (column: number) => {
  const counts = new Map<number, number>();
  for (const { cells } of rows) {
    const digits = cells.length === columns ? /\.(\d+)/.exec(cells[column]!.text)?.[1]?.length : undefined;
    if (digits !== undefined) counts.set(digits, (counts.get(digits) ?? 0) + 1);
  }
  return [...counts].toSorted(([, a], [, b]) => b - a)[0]?.[0];
};

/** Reports a mistake repeated in every row, such as a decimal comma, once: at its first place, with the number of the others. */
function collapseRepeats(faults: readonly Diagnostic[]): readonly Diagnostic[] {
  if (faults.length < 2) return faults;
  const habits = new Set<string>(["units/decimal-comma", "units/missing-unit"]);
  return faults.flatMap((fault, index) => {
    if (!habits.has(fault.code)) return [fault];
    if (faults.findIndex(({ code }) => code === fault.code) < index) return [];
    const others = faults.filter(({ code }) => code === fault.code).length - 1;
    return [others > 0 ? { ...fault, note: `and ${others} more in this table` } : fault];
  });
}

/** Lifts closer than this are equal: no dial resolves it [m]. */
const SAME_LIFT = 1e-9;

/** Marks repeats. Before the table's highest lift, a falling lift is a mistake and not a second sweep. */
function markRepeats(rows: readonly ReadingsRow[]): { rows: readonly ReadingsRow[]; faults: readonly Diagnostic[] } {
  const highest = rows.reduce(
    (best, row, index) => (row.lift.value > rows[best]!.lift.value + SAME_LIFT ? index : best),
    0,
  );
  const falls = rows.findIndex(
    (row, index) => index > 0 && index < highest && row.lift.value < rows[index - 1]!.lift.value - SAME_LIFT,
  );
  if (falls >= 0) return { rows, faults: [fallingLift(rows, falls)] };
  const seen = new Set<number>();
  const marked = rows.map((one, index) => {
    const key = Math.round(one.lift.value / SAME_LIFT);
    const repeat = index > highest || seen.has(key);
    seen.add(key);
    return repeat ? { ...one, repeat } : one;
  });
  return { rows: marked, faults: [] };
}
