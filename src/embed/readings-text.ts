import type { Column } from "../job/readings/readings-head.ts";
import { joinCellParts, type ReadingCell, type ReadingsRow } from "../job/readings/readings-row.ts";
import type { ReadingsTable } from "../job/readings/readings-table.ts";

/** Formats a readings table as typed, digits and marks included; of its comments only the reasons printed on the sheet. */
export function formatReadingsTable({ columns, rows }: ReadingsTable): string {
  const head = columns.map(({ name, unit }) => (unit === undefined ? name : `${name}/${unit}`));
  const cells = rows.map((row) => columns.map((column) => formatCell(row, column)));
  const widths = head.map((title, i) => Math.max(title.length, ...cells.map((row) => row[i]!.length)));
  const line = (row: readonly string[]) =>
    row
      .map((cell, i) => cell.padEnd(widths[i]!))
      .join("  ")
      .trimEnd();
  return [head, ...cells].map((row, i) => `${line(row)}${i === 0 ? "" : formatReason(rows[i - 1]!)}\n`).join("");
}

function formatCell(row: ReadingsRow, { name }: Column): string {
  switch (name) {
    case "lift":
      return formatQuantity(row.lift.text);
    case "intake":
    case "exhaust":
      return formatReading(row.readings[name]);
    case "pressure":
      return formatQuantity((row.pressure.intake ?? row.pressure.exhaust)?.text);
    case "range":
      return formatQuantity((row.range.intake ?? row.range.exhaust)?.text);
    case "pressure_i":
    case "pressure_e":
      return formatQuantity(row.pressure[name === "pressure_i" ? "intake" : "exhaust"]?.text);
    case "range_i":
    case "range_e":
      return formatQuantity(row.range[name === "range_i" ? "intake" : "exhaust"]?.text);
  }
}

function formatReading(cell: ReadingCell | undefined): string {
  if (cell === undefined || cell.kind === "missing") return "-";
  const typed = formatQuantity(cell.text);
  return cell.kind === "struck out" ? `~${typed}` : `${typed}${{ good: "", doubtful: "?", noisy: "!" }[cell.kind]}`;
}

function formatReason({ readings }: ReadingsRow): string {
  const reason = (readings.intake?.reason ?? readings.exhaust?.reason)?.replace(/\s+/g, " ");
  return reason === undefined ? "" : `  # ${reason}`;
}

const formatQuantity = (text: string | undefined) => (text === undefined || text === "" ? "-" : joinCellParts(text));
