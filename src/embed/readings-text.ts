import type { Column } from "../job/readings/readings-head.ts";
import { gluedCell, type ReadingCell, type ReadingsRow } from "../job/readings/readings-row.ts";
import type { ReadingsTable } from "../job/readings/readings-table.ts";

/** A readings table as it was typed, digit by digit and mark by mark; of its comments only the reasons that a sheet prints. */
export function readingsText({ columns, rows }: ReadingsTable): string {
  const head = columns.map(({ name, unit }) => (unit === undefined ? name : `${name}/${unit}`));
  const cells = rows.map((row) => columns.map((column) => cellOf(row, column)));
  const widths = head.map((title, i) => Math.max(title.length, ...cells.map((row) => row[i]!.length)));
  const line = (row: readonly string[]) =>
    row
      .map((cell, i) => cell.padEnd(widths[i]!))
      .join("  ")
      .trimEnd();
  return [head, ...cells].map((row, i) => `${line(row)}${i === 0 ? "" : reasonOf(rows[i - 1]!)}\n`).join("");
}

function cellOf(row: ReadingsRow, { name }: Column): string {
  switch (name) {
    case "lift":
      return glued(row.lift.text);
    case "intake":
    case "exhaust":
      return marked(row.readings[name]);
    case "pressure":
      return glued((row.pressure.intake ?? row.pressure.exhaust)?.text);
    case "range":
      return glued((row.range.intake ?? row.range.exhaust)?.text);
    case "pressure_i":
    case "pressure_e":
      return glued(row.pressure[name === "pressure_i" ? "intake" : "exhaust"]?.text);
    case "range_i":
    case "range_e":
      return glued(row.range[name === "range_i" ? "intake" : "exhaust"]?.text);
  }
}

function marked(cell: ReadingCell | undefined): string {
  if (cell === undefined || cell.kind === "missing") return "-";
  const typed = glued(cell.text);
  return cell.kind === "struck out" ? `~${typed}` : `${typed}${{ good: "", doubtful: "?", noisy: "!" }[cell.kind]}`;
}

function reasonOf({ readings }: ReadingsRow): string {
  const reason = (readings.intake?.reason ?? readings.exhaust?.reason)?.replace(/\s+/g, " ");
  return reason === undefined ? "" : `  # ${reason}`;
}

const glued = (text: string | undefined) => (text === undefined || text === "" ? "-" : gluedCell(text));
