import type { Table, TableCell } from "../../sheet/content.ts";
import { type FlowBox, type Frame, type RepeatedHead, shift } from "../flow-box.ts";
import type { PlacedItem, Tag } from "../page.ts";
import { lineAt, lineBoxes, ruleAt, textAt } from "../set-text.ts";
import type { PartContext } from "../setting.ts";
import { space } from "../type-sizes.ts";
import { wrap, wrapBalanced } from "../wrap.ts";
import { boxAround } from "./box-around.ts";
import { type ColumnBox, cellType, splitFigure, tableColumns } from "./table-columns.ts";
import { tableHead } from "./table-head.ts";
import { verdictMark } from "./verdict-mark.ts";

/** A table of so few rows is not divided while a page can hold it. */
const keptWhole = 6;

/** A table: rows whole, never one alone, under a head that comes again on every page, its notes with the last rows. */
export function table(part: Table, ctx: PartContext): readonly FlowBox[] {
  const columns = tableColumns(part, ctx);
  if (columns.length === 0) return [];
  const right = columns.at(-1)!.x + columns.at(-1)!.width;
  const run: RepeatedHead = {
    head: tableHead(part, columns, false, ctx),
    again: tableHead(part, columns, true, ctx),
    close: { height: 3, items: [ruleAt(2.5, 0, right, 0.75, ctx.colors.ink, ctx)] },
  };
  const headRows = part.groups ? 2 : 1;
  const frames = part.rows.map((cells, r) => tableRow(part, cells, headRows + r, columns, ctx));
  // Rows of several lines need air between them.
  const air = frames.some((frame, r) => frame.height - boxedBy(part.rows[r]!) > ctx.types.table.lead) ? 3 : 0;
  const last = frames.length - 1;
  const opens = groupStarts(part);
  const rows = frames.map((frame, r): FlowBox => {
    const wide = (part.fifths && r % 5 === 0) || opens?.has(r);
    const gap = r === 0 ? space.part : air + (wide ? space.fifth : 0);
    const within = opens !== undefined && !opens.has(r + 1);
    const firm = r === 0 || r === last - 1 || within;
    const tie = r < last ? firm || frames.length <= keptWhole : part.notes.length > 0;
    return {
      ...(part.closing && r === last ? grounded(frame, right, ctx) : frame),
      gap,
      tie,
      loose: !firm && r < last,
      run,
      opens: r === 0,
      divisible: true,
    };
  });
  const notes = part.notes.flatMap((note, n) => {
    const ink = { color: ctx.colors.quiet, tag: { kind: "paragraph", id: `${ctx.id}-note${n}` } } as const;
    const lines = wrapBalanced([{ text: note, weight: "regular" }], ctx.types.caption.size, ctx.width, ctx.measure);
    return lineBoxes(
      lines.map((line) => lineAt(line, 0, 0, ctx.types.caption, ink, ctx)),
      ctx.types.caption.lead,
      n === 0 ? 3 : 1,
    );
  });
  return [...rows, ...notes];
}

/** A row on the ground of what lies past the cam. */
function grounded(frame: Frame, width: number, ctx: PartContext): Frame {
  const { height, items } = frame;
  const tag = { kind: "artifact" } as const;
  const ground = { kind: "box", x: 0, y: 0, width, height, fill: ctx.colors.beyond, tag, block: ctx.block } as const;
  return { height, items: [ground, ...items] };
}

/** The rows with which groups begin, where there are groups. */
function groupStarts({ together }: Table): ReadonlySet<number> | undefined {
  if (together === undefined) return undefined;
  const starts = new Set<number>();
  let row = 0;
  for (const count of together) {
    starts.add(row);
    row += count;
  }
  return starts;
}

function tableRow(
  part: Table,
  cells: readonly TableCell[],
  row: number,
  columns: readonly ColumnBox[],
  ctx: PartContext,
): Frame {
  const frames = columns.map((box, c) => {
    const cell = cells[c] ?? { text: "" };
    const header = c === 0 && part.rowHeads ? ({ header: "row" } as const) : {};
    return tableCell(cell, box, { kind: "cell", table: ctx.id, row, column: c, ...header }, ctx);
  });
  const height = Math.max(ctx.types.table.lead, ...frames.map((frame) => frame.height));
  const items = frames.flatMap((frame) => frame.items);
  if (boxedBy(cells) === 0) return { height, items };
  const boxes = frames.flatMap((frame, c) => cellBox(cells[c], frame, ctx));
  return { height: height + BOXED, items: shift([...items, ...boxes], 0, BOXED / 2) };
}

/** What a row with a box is higher by [pt]. */
const BOXED = 3;
const boxedBy = (cells: readonly TableCell[]) => (cells.some(({ boxed }) => boxed !== undefined) ? BOXED : 0);

/** The box round a cell's text, with its words on the cell's tag. */
function cellBox(cell: TableCell | undefined, frame: Frame, ctx: PartContext): readonly PlacedItem[] {
  const texts = frame.items.filter((item) => item.kind === "text");
  const [first] = texts;
  if (cell?.boxed === undefined || first === undefined) return [];
  const left = Math.min(...texts.map(({ x }) => x)) - 3;
  const right = Math.max(...texts.map(({ x, width }) => x + width)) + 3;
  const tag = first.tag.kind === "cell" ? { ...first.tag, says: cell.boxed } : first.tag;
  return [boxAround({ x: left, y: -0.75, width: right - left, height: frame.height + 1.5 }, tag, ctx)];
}

function tableCell(cell: TableCell, box: ColumnBox, tag: Tag, ctx: PartContext): Frame {
  const type = cellType(cell, ctx);
  const ink = { color: cell.quiet ? ctx.colors.quiet : ctx.colors.ink, tag };
  const width = (text: string) => ctx.measure.width(text, type.weight, type.size);
  const figure = box.align === "decimal" ? splitFigure(cell.text) : undefined;
  const right = box.x + box.width - box.marks - box.after;
  if (figure && width(cell.text) <= box.width - box.marks - box.after + 1e-6) {
    const x = Math.max(box.x, right - box.rest - width(figure.whole));
    const mark: readonly PlacedItem[] = cell.mark
      ? [verdictMark(cell.mark, right + 2.5, 0, type, ctx, markTag(cell, tag))]
      : [];
    return {
      height: type.lead,
      items: [textAt(cell.text, x, 0, type, ink, ctx), ...mark, ...plusMinus(cell, box, tag, ctx)],
    };
  }
  const room = box.width - box.marks - box.after;
  const lines = wrap([{ text: cell.text, weight: type.weight }], type.size, room, ctx.measure);
  const left = box.align === "left" ? box.marks : 0;
  const mark: readonly PlacedItem[] = cell.mark
    ? [verdictMark(cell.mark, left > 0 ? box.x : right + 2.5, 0, type, ctx, markTag(cell, tag))]
    : [];
  return {
    height: Math.max(1, lines.length) * type.lead,
    items: [
      ...mark,
      ...lines.flatMap((line, i) => {
        const x = box.align === "left" ? box.x + left : right - line.width;
        return lineAt(line, x, i * type.lead, type, ink, ctx);
      }),
    ],
  };
}

/** The ± of a figure, quiet at the right end of its column. */
function plusMinus(cell: TableCell, box: ColumnBox, tag: Tag, ctx: PartContext): readonly PlacedItem[] {
  const { plusMinus: text } = cell;
  if (text === undefined) return [];
  const { size, weight } = ctx.types.table;
  const x = box.x + box.width - ctx.measure.width(text, weight, size);
  // Where the row has a ground, quiet words would be too pale on it.
  const color = cell.strong && cell.quiet === false ? ctx.colors.ink : ctx.colors.quiet;
  return [textAt(text, x, 0, ctx.types.table, { color, tag }, ctx)];
}

/** Tag of a verdict mark: its words on the cell's tag, or an artifact without words. */
const markTag = ({ markLabel }: TableCell, tag: Tag): Tag =>
  markLabel !== undefined && tag.kind === "cell" ? { ...tag, says: markLabel } : { kind: "artifact" };
