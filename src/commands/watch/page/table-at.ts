/** The lines of a text, from 1. */
type LineSource = { readonly count: number; readonly line: (number: number) => string };

/** A readings table in the text: its lines from head to last row, and their indent. */
type TableInText = { readonly first: number; readonly last: number; readonly indent: number };

const START = /^(\s*(?:- +)?)(?:flow|table)\s*:\s*[|>][-+\d]*\s*(?:#.*)?$/;
const indentOf = (line: string) => /^ */.exec(line)![0].length;

/** The readings table around a line; undefined outside of one. A blank line right below the last row belongs to it. */
export function tableAt({ count, line }: LineSource, number: number): TableInText | undefined {
  let start = number;
  while (start > 0 && !START.test(line(start))) {
    if (start < number && line(start).trim() !== "" && indentOf(line(start)) === 0) return undefined;
    start--;
  }
  if (start === 0 || start === number) return undefined;
  const outer = START.exec(line(start))![1]!.length;
  const isInside = (at: number) => line(at).trim() === "" || indentOf(line(at)) > indentOf(line(start));
  let [first, last] = [0, start];
  for (let at = start + 1; at <= count && isInside(at); at++)
    if (line(at).trim() !== "") {
      first ||= at;
      last = at;
    }
  if (number > last + 1 || (number > last && !isInside(number))) return undefined;
  return {
    first: first || start + 1,
    last: Math.max(last, start + 1),
    indent: first ? indentOf(line(first)) : outer + 2,
  };
}

/** The cells of a row, by their columns in the line. */
export const cellsOf = (line: string): readonly { readonly from: number; readonly to: number }[] =>
  [...line.replace(/#.*/s, "").matchAll(/\S+/g)].map(({ 0: text, index }) => ({
    from: index,
    to: index + text.length,
  }));

/** Rows of a spreadsheet as rows of a table: cells under those of its head, decimal points, and the table's indent. */
export function alignRows(pasted: string, head: string, indent: number): readonly string[] {
  const widths = cellsOf(head).map(({ to }) => to - indent);
  const rows = pasted.replace(/\r\n?/g, "\n").replace(/\n+$/, "").split("\n");
  return rows.map((row) => {
    const cells = row.includes("\t") ? row.split("\t").map((cell) => cell.trim() || "-") : row.trim().split(/\s+/);
    const numbers = cells.map((cell) => cell.replace(/^(~?-?\d+),(\d+[?!]?)$/, "$1.$2"));
    return " ".repeat(indent) + numbers.reduce((line, cell, at) => line + padCell(line, cell, at, widths), "");
  });
}

/** A cell with the blanks before it: the first as it is, others to the right end of their column. */
const padCell = (line: string, cell: string, at: number, ends: readonly number[]): string =>
  at === 0 ? cell : cell.padStart(Math.max(cell.length + 2, (ends[at] ?? 0) - line.length));
