/** Aligns columns for a terminal: to the right, the last one to the left. */
export function formatTable(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const widths = head.map((title, column) => Math.max(title.length, ...rows.map((row) => row[column]!.length)));
  const last = head.length - 1;
  const line = (row: readonly string[]) =>
    `  ${row.map((cell, column) => (column === last ? cell.padEnd(widths[column]!) : cell.padStart(widths[column]!))).join("  ")}`.trimEnd();
  return [head, ...rows].map(line).join("\n");
}
