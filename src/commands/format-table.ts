/** Aligns columns for a terminal: to the right, the last one to the left. Too wide, it loses columns in the order of `drop`, which is said. */
export function formatTable(
  head: readonly string[],
  rows: readonly (readonly string[])[],
  width: number,
  drop: readonly number[],
): string {
  const widths = head.map((title, column) => Math.max(title.length, ...rows.map((row) => row[column]!.length)));
  const last = head.length - 1;
  let shown = [...head.keys()];
  const dropped: number[] = [];
  const isWide = () => shown.reduce((sum, column) => sum + 2 + widths[column]!, 0) > width;
  for (const column of drop) {
    if (!isWide()) break;
    shown = shown.filter((each) => each !== column);
    dropped.push(column);
  }
  const pad = (row: readonly string[], column: number) =>
    column === last ? row[column]!.padEnd(widths[column]!) : row[column]!.padStart(widths[column]!);
  const line = (row: readonly string[]) => `  ${shown.map((column) => pad(row, column)).join("  ")}`.trimEnd();
  const note =
    dropped.length === 0 ? [] : [`  left out, too narrow: ${dropped.map((column) => head[column]).join(", ")}`];
  return [...[head, ...rows].map(line), ...note].join("\n");
}
