import type { Table } from "../../sheet/content.ts";
import type { Frame } from "../flow-box.ts";
import type { Placed, Tag } from "../page.ts";
import { ruleAt, textAt, textBox } from "../set-text.ts";
import type { Setting } from "../setting.ts";
import { space, types } from "../type-sizes.ts";
import { wrap } from "../wrap.ts";
import type { ColumnBox } from "./table-columns.ts";

/** The head of a table: title, rule, heads of groups, titles with units, rule. Repeated, it is "(continued)", an artifact. */
export function tableHead(part: Table, columns: readonly ColumnBox[], continued: boolean, set: Setting): Frame {
  const items: Placed[] = [];
  const tagged = (tag: Tag): Tag => (continued ? { kind: "artifact" } : tag);
  const right = columns.at(-1)!.x + columns.at(-1)!.width;
  const { ink, quiet, rule } = set.colors;
  let y = 0;

  const title = [part.title ?? "", continued ? "(continued)" : ""].filter((text) => text !== "").join(" ");
  if (title !== "") {
    const tag = tagged({ kind: "caption", id: `${set.id}-title`, of: set.id });
    const type = part.title ? types.strong : types.caption;
    const box = textBox(
      [{ text: title, weight: type.weight }],
      { x: 0, y, width: set.width },
      type,
      { color: ink, tag },
      set,
    );
    items.push(...box.items);
    y += box.height + space.afterTitle;
  }
  items.push(ruleAt(y + 0.5, 0, right, 0.75, ink, set));
  y += 3;

  if (part.groups) {
    const lines: Placed[] = [];
    let from = 0;
    let height = 0;
    for (const group of part.groups) {
      const [first, last] = [columns[from], columns[from + group.span - 1]];
      if (first && last && group.text !== "") {
        const [left, end] = [first.x + first.width - inkWidth(part, from, first, set), last.x + last.width];
        const wrapped = wrap([{ text: group.text, weight: "semibold" }], types.table.size, end - first.x, set.measure);
        const ink_ = {
          color: ink,
          tag: tagged({ kind: "cell", table: set.id, row: 0, column: from, header: "column", span: group.span }),
        };
        wrapped.forEach((line, i) => {
          const x = Math.max(first.x, (left + end - line.width) / 2);
          for (const piece of line.pieces)
            lines.push(textAt(piece.text, x + piece.x, y + i * types.table.lead, types.tableStrong, ink_, set));
        });
        height = Math.max(height, wrapped.length * types.table.lead);
      }
      from += group.span;
    }
    items.push(...lines);
    y += height;
    from = 0;
    for (const group of part.groups) {
      const [first, last] = [columns[from], columns[from + group.span - 1]];
      if (first && last && group.text !== "") {
        const left = first.x + first.width - inkWidth(part, from, first, set);
        items.push(ruleAt(y + 0.5, left, last.x + last.width, 0.5, rule, set));
      }
      from += group.span;
    }
    y += 2;
  }

  const row = part.groups ? 1 : 0;
  const titles = part.columns.map((column, c) => {
    const box = columns[c]!;
    const lines = wrap([{ text: column.title, weight: "semibold" }], types.table.size, box.width, set.measure);
    return { column, box, lines, c };
  });
  const titleLines = Math.max(...titles.map((title) => title.lines.length));
  const unitLine = part.columns.some((column) => column.unit) ? types.caption.lead : 0;
  for (const { column, box, lines, c } of titles) {
    const tag = tagged({ kind: "cell", table: set.id, row, column: c, header: "column" });
    const place = (width: number) => (box.align === "left" ? box.x : box.x + box.width - box.marks - width);
    // Titles stand on one line, units on another below them.
    let top = y + (titleLines - lines.length) * types.table.lead;
    for (const line of lines) {
      const x = Math.max(box.x, place(line.width));
      for (const piece of line.pieces)
        items.push(textAt(piece.text, x + piece.x, top, types.tableStrong, { color: ink, tag }, set));
      top += types.table.lead;
    }
    if (column.unit) {
      const width = set.measure.width(column.unit, "regular", types.caption.size);
      items.push(textAt(column.unit, Math.max(box.x, place(width)), top, types.caption, { color: quiet, tag }, set));
    }
  }
  y += titleLines * types.table.lead + unitLine + 2;
  items.push(ruleAt(y, 0, right, 0.5, rule, set));
  return { height: y + 2.5, items };
}

/** How wide the ink of a column's head is: where a group's rule begins. */
function inkWidth(part: Table, c: number, box: ColumnBox, set: Setting): number {
  if (box.align === "left") return box.width;
  const title = wrap([{ text: part.columns[c]!.title, weight: "semibold" }], types.table.size, box.width, set.measure);
  const unit = set.measure.width(part.columns[c]!.unit ?? "", "regular", types.caption.size);
  return Math.min(box.width, Math.max(unit, ...title.map((line) => line.width)) + box.marks);
}
