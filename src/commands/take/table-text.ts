import type { Cell, CellRow } from "../../parse/parse-delimited.ts";

/** Lines of a table for a job file, with the source cell of each of their cells. */
export type TableText = {
  readonly lines: readonly string[];
  readonly cells: readonly {
    readonly line: number;
    readonly start: number;
    readonly end: number;
    readonly from: Cell;
  }[];
};

/** Splits a number before its decimal point, for alignment. */
const splitAtPoint = (text: string) => {
  const [, before = "", after = ""] = /^([^.?!]*)(.*)$/s.exec(text) ?? [];
  return { before, after };
};

/** Formats the table with aligned decimal points, as one would type it. */
export function formatTable(head: readonly Cell[], body: readonly CellRow[]): TableText {
  const rows = body.filter(({ cells, comment }) => cells.length > 0 || comment?.text);
  const columns = head.map((title, index) => {
    const parts = rows.flatMap(({ cells }) => (cells[index] ? [splitAtPoint(cells[index].text)] : []));
    const before = Math.max(0, ...parts.map((part) => part.before.length));
    const after = Math.max(0, ...parts.map((part) => part.after.length));
    return { before: Math.max(before, title.text.length - after), after };
  });
  const numbers = rows.map(({ cells, comment }) => ({
    comment,
    cells: cells.map((from, index) => {
      const { before, after } = splitAtPoint(from.text);
      const column = columns[index]!;
      return { from, shown: before.padStart(column.before) + after.padEnd(column.after) };
    }),
  }));
  const first = head.map((from, index) => ({
    from,
    shown: from.text.padEnd(columns[index]!.before + columns[index]!.after),
  }));
  const all = [{ cells: first, comment: undefined }, ...numbers];
  const placed: TableText["cells"][number][] = [];
  const lines = all.map(({ cells, comment }, line) => {
    let text = "";
    for (const { from, shown } of cells) {
      if (text !== "") text += "  ";
      const start = text.length + shown.length - shown.trimStart().length;
      placed.push({ line, start, end: start + shown.trim().length, from });
      text += shown;
    }
    const words = comment?.text ? `${cells.length > 0 ? "  " : ""}# ${comment.text}` : "";
    return (text.trimEnd() + words).trimEnd();
  });
  return { lines, cells: placed };
}
