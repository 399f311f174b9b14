import type { Diagnostic, Span } from "../../diagnostics/diagnostic.ts";
import { didYouMean } from "../../diagnostics/did-you-mean.ts";
import type { Cell, CellRow } from "../../parse/parse-delimited.ts";
import { acceptedUnits, findUnit, type Kind } from "../../units/table.ts";
import { shorten } from "../../util/shorten.ts";
import { columnOfWord } from "./column-words.ts";

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

export type ReadingsOptions = {
  /** Units of bare numbers, by name; undefined where none is declared. */
  readonly units: { readonly length?: string; readonly flow?: string; readonly pressure?: string };
  readonly reads: "flow" | "percent";
  /** The table is being typed: its last rows may lack their last readings. */
  readonly grows?: boolean;
  /** The span in the file of characters [start, end) of the table's text. */
  readonly at: (start: number, end: number) => Span;
};

export const spanOf = (cells: readonly Cell[], { at }: ReadingsOptions) => at(cells[0]!.start, cells.at(-1)!.end);

/** Joins a name and its unit that a blank parts: `lift (mm)`. */
function joinUnits(cells: readonly Cell[]): readonly Cell[] {
  const out: Cell[] = [];
  for (const cell of cells) {
    const last = out.at(-1);
    if (last && /^[([]/.test(cell.text))
      out[out.length - 1] = { text: last.text + cell.text, start: last.start, end: cell.end };
    else out.push(cell);
  }
  return out;
}

/** The kind of a column's numbers; a range has none, being a name. */
function kindOf(name: ColumnName, reads: ReadingsOptions["reads"]): Kind | undefined {
  if (name === "lift") return "length";
  if (name === "intake" || name === "exhaust") return reads === "percent" ? "ratio" : "flow";
  return name.startsWith("pressure") ? "pressure" : undefined;
}

function bareUnitOf(kind: Kind | undefined, { units }: ReadingsOptions): string | undefined {
  if (kind === "ratio") return "%";
  return kind === "length" || kind === "flow" || kind === "pressure" ? units[kind] : undefined;
}

/** Parses the head line of a table: its columns and their units. */
export function readHead(head: CellRow, options: ReadingsOptions) {
  const faults: Diagnostic[] = [];
  const columns: Column[] = [];
  const fault = (code: Diagnostic["code"], message: string, at: Span, hint: string) =>
    faults.push({ severity: "error", code, message, at, hint });

  for (const cell of trimmedEnd(joinUnits(head.cells), 0)) {
    const parts = /^([^/([]*)(?:\/(.*)|[([]([^)\]]*)[)\]]?)?$/s.exec(cell.text);
    const [typed = "", slashed, bracketed] = parts?.slice(1) ?? [cell.text];
    const folded = typed
      .trim()
      .toLowerCase()
      .replace(/[\s-]+/g, "_");
    const name = COLUMNS.find((one) => one === folded);
    const span = options.at(cell.start, cell.end);
    if (!name) {
      const near = didYouMean(folded, COLUMNS) ?? COLUMNS.find((one) => one === columnOfWord(folded));
      const hint = near ? `did you mean ${near}?` : `columns are ${COLUMNS.join(", ")}`;
      fault("job/readings-column", `\`${shorten(typed)}\` is not a column of a readings table`, span, hint);
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
      const what = kind === undefined ? "has no unit" : `is not measured in \`${shorten(unit)}\``;
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

/** Drops empty cells beyond the columns, with which spreadsheets end their lines. */
export function trimmedEnd(cells: readonly Cell[], columns: number): readonly Cell[] {
  let end = cells.length;
  while (end > columns && cells[end - 1]!.text === "") end--;
  return cells.slice(0, end);
}
