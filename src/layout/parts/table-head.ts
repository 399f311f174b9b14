import type { Table } from "../../sheet/content.ts";
import type { Frame } from "../flow-box.ts";
import type { PlacedItem, Tag } from "../page.ts";
import { lineAt, ruleAt, textAt, textBox } from "../set-text.ts";
import type { PartContext } from "../setting.ts";
import { space } from "../type-sizes.ts";
import { wrap } from "../wrap.ts";
import type { ColumnBox } from "./table-columns.ts";

type Head = {
  readonly part: Table;
  readonly columns: readonly ColumnBox[];
  readonly continued: boolean;
  readonly ctx: PartContext;
};

/** The head of a table: title, rule, group heads, titles with units, rule. A repeated head is "(continued)" and an artifact. */
export function tableHead(part: Table, columns: readonly ColumnBox[], continued: boolean, ctx: PartContext): Frame {
  const head: Head = { part, columns, continued, ctx };
  const right = columns.at(-1)!.x + columns.at(-1)!.width;
  const title = headTitle(head);
  const groups = groupHeads(head, title.height + 3);
  const titles = columnTitles(head, title.height + 3 + groups.height);
  const y = title.height + 3 + groups.height + titles.height;
  const rules = [
    ruleAt(title.height + 0.5, 0, right, 0.75, ctx.colors.ink, ctx),
    ruleAt(y, 0, right, 0.5, ctx.colors.rule, ctx),
  ] as const;
  return { height: y + 2.5, items: [...title.items, rules[0], ...groups.items, ...titles.items, rules[1]] };
}

const headTag = ({ continued }: Head, tag: Tag): Tag => (continued ? { kind: "artifact" } : tag);

function headTitle(head: Head): Frame {
  const { part, continued, ctx } = head;
  const text = [part.title ?? "", continued ? "(continued)" : ""].filter((each) => each !== "").join(" ");
  if (text === "") return { height: 0, items: [] };
  const type = part.title ? ctx.types.strong : ctx.types.caption;
  const ink = {
    color: ctx.colors.ink,
    tag: headTag(head, { kind: "caption", id: `${ctx.id}-title`, of: ctx.id }),
  };
  const box = textBox([{ text, weight: type.weight }], { x: 0, y: 0, width: ctx.width }, type, ink, ctx);
  return { height: box.height + space.afterTitle, items: box.items };
}

/** Headings of column groups, each over a rule as wide as the printed text of its columns; `y` is their top. */
function groupHeads(head: Head, y: number): Frame {
  const { part, columns, ctx } = head;
  if (!part.groups) return { height: 0, items: [] };
  const spans: { readonly left: number; readonly end: number }[] = [];
  const items: PlacedItem[] = [];
  let from = 0;
  let height = 0;
  for (const { text, span } of part.groups) {
    const [first, last] = [columns[from], columns[from + span - 1]];
    if (first && last && text !== "") {
      const [left, end] = [first.x + first.width - inkWidth(part, from, first, ctx), last.x + last.width];
      const lines = wrap([{ text, weight: "semibold" }], ctx.types.table.size, end - first.x, ctx.measure);
      const cell = { kind: "cell", table: ctx.id, row: 0, column: from, header: "column", span } as const;
      const ink = { color: ctx.colors.ink, tag: headTag(head, cell) };
      lines.forEach((line, i) => {
        const x = Math.max(first.x, Math.min((left + end - line.width) / 2, end - line.width));
        items.push(...lineAt(line, x, y + i * ctx.types.table.lead, ctx.types.tableStrong, ink, ctx));
      });
      height = Math.max(height, lines.length * ctx.types.table.lead);
      spans.push({ left, end });
    }
    from += span;
  }
  const rules = spans.map(({ left, end }) => ruleAt(y + height + 0.5, left, end, 0.5, ctx.colors.rule, ctx));
  return { height: height + 2, items: [...items, ...rules] };
}

/** Titles share their last line, units the line below; `y` is the top of the tallest title. */
function columnTitles(head: Head, y: number): Frame {
  const { part, columns, ctx } = head;
  const { ink, quiet } = ctx.colors;
  const row = part.groups ? 1 : 0;
  const wrapped = part.columns.map(({ title }, c) =>
    wrap(
      [{ text: title, weight: "semibold" }],
      ctx.types.table.size,
      columns[c]!.width - columns[c]!.after,
      ctx.measure,
    ),
  );
  const most = Math.max(...wrapped.map((lines) => lines.length));
  const unitLine = part.columns.some((column) => column.unit) ? ctx.types.caption.lead : 0;
  const items = part.columns.flatMap(({ unit }, c): PlacedItem[] => {
    const [box, lines] = [columns[c]!, wrapped[c]!];
    const tag = headTag(head, { kind: "cell", table: ctx.id, row, column: c, header: "column" });
    const left = (width: number) =>
      Math.max(box.x, box.align === "left" ? box.x : box.x + box.width - box.marks - box.after - width);
    const top = y + (most - lines.length) * ctx.types.table.lead;
    const titles = lines.flatMap((line, i) =>
      lineAt(line, left(line.width), top + i * ctx.types.table.lead, ctx.types.tableStrong, { color: ink, tag }, ctx),
    );
    if (!unit) return [...titles];
    const x = left(ctx.measure.width(unit, "regular", ctx.types.caption.size));
    return [...titles, textAt(unit, x, y + most * ctx.types.table.lead, ctx.types.caption, { color: quiet, tag }, ctx)];
  });
  return { height: most * ctx.types.table.lead + unitLine + 2, items };
}

/** Width of the ink of a column's head; a group's rule begins there. */
function inkWidth(part: Table, c: number, box: ColumnBox, ctx: PartContext): number {
  if (box.align === "left") return box.width;
  const room = box.width - box.after;
  const title = wrap([{ text: part.columns[c]!.title, weight: "semibold" }], ctx.types.table.size, room, ctx.measure);
  const unit = ctx.measure.width(part.columns[c]!.unit ?? "", "regular", ctx.types.caption.size);
  return Math.min(box.width, Math.max(unit, ...title.map((line) => line.width)) + box.marks + box.after);
}
