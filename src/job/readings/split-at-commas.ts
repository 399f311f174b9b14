import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import type { Cell, CellRow } from "../../parse/parse-delimited.ts";
import { type ReadingsOptions, spanOf } from "./readings-head.ts";

/** What may stand in a column: a name, or a number with its mark, or a dash. */
const CELL = /^(?:[A-Za-z_][\w/()-]*|~?[\d.]+[?!]?|[-\u2013\u2014])$/;

/** The cells of a row that commas part, or undefined. `0,100  40,1` has decimal commas: a blank parts its columns. */
function cellsBetweenCommas({ cells }: CellRow, columns: number | undefined): readonly Cell[] | undefined {
  if (!cells.some(({ text }) => text.includes(","))) return undefined;
  const parts = cells.flatMap(({ text, start }) =>
    [...text.matchAll(/[^,]+/g)].map((match): Cell => {
      const from = start + match.index;
      return { text: match[0], start: from, end: from + match[0].length };
    }),
  );
  const trailing = cells.slice(0, -1).every(({ text }) => /^[^,]+,$/.test(text)) && cells.length > 1;
  const single = cells.length === 1 && parts.length > 1 && parts.length === (columns ?? parts.length);
  return (trailing || single) && parts.every(({ text }) => CELL.test(text)) ? parts : undefined;
}

/** Parts the rows of a typed table at its commas, and reports them once, at the first such row. */
export function splitAtCommas(
  rows: readonly CellRow[],
  options: ReadingsOptions,
): { readonly rows: readonly CellRow[]; readonly faults: readonly Diagnostic[] } {
  const [head, ...body] = rows;
  if (!head) return { rows, faults: [] };
  const parted = cellsBetweenCommas(head, undefined);
  const columns = (parted ?? head.cells).length;
  const all = [parted, ...body.map((row) => cellsBetweenCommas(row, columns))];
  const first = all.findIndex((cells) => cells !== undefined);
  if (first < 0) return { rows, faults: [] };
  const others = all.filter((cells) => cells !== undefined).length - 1;
  const fault: Diagnostic = {
    severity: "error",
    code: "job/readings-commas",
    message: "commas part the columns of this table",
    at: spanOf(rows[first]!.cells, options),
    ...(others > 0 && { note: `and of ${others} more ${others === 1 ? "row" : "rows"}` }),
    hint: `write ${all[first]!.map(({ text }) => text).join(" ")}; blanks or tabs part the columns`,
  };
  return { rows: rows.map((row, k) => ({ ...row, cells: all[k] ?? row.cells })), faults: [fault] };
}
