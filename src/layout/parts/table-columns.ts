import type { Table, TableCell } from "../../sheet/content.ts";
import type { PartContext } from "../setting.ts";
import { grid, space } from "../type-sizes.ts";
import { widestWordWidth } from "../wrap.ts";
import { markRoom } from "./verdict-mark.ts";

/** A column measured and placed. `rest`: room right of the units for decimals and what follows; `marks`: room for shapes; `after`: for a ± right of them. */
export type ColumnBox = {
  readonly x: number;
  readonly width: number;
  readonly align: "left" | "right" | "decimal";
  readonly rest: number;
  readonly marks: number;
  readonly after: number;
};

/** Measures every cell, then shares out the width: words are not cut while there is another way. */
export function tableColumns(part: Table, ctx: PartContext): readonly ColumnBox[] {
  const wants = part.columns.map((_, c) => desiredWidths(part, c, ctx));
  const gutter = part.columns.length > 7 ? space.cell - 2 : space.cell;
  const gutters = gutter * (wants.length - 1);
  const least = sum(wants.map((want) => want.least));
  const best = sum(wants.map((want) => want.best));
  const room = tableWidth(wants.length, best + gutters, ctx.width) - gutters;
  const widths =
    best <= room
      ? wants.map((want, c) => want.best + extraWidth(part, c, room - best))
      : least <= room
        ? levelWidths(wants, room)
        : // The widest give way first: a part number is cut before a figure beside it.
          levelWidths(
            wants.map((want) => ({ least: 0, best: want.least })),
            room,
          );
  let x = 0;
  return widths.map((width, c) => {
    const box = { x, width, align: part.columns[c]!.align, ...wants[c]!.inside };
    x += width + gutter;
    return box;
  });
}

/** Figures far apart are hard to read across: few columns stand in half of the live area where they fit. */
function tableWidth(columns: number, best: number, width: number): number {
  const live = grid.columns * grid.column + (grid.columns - 1) * grid.gutter;
  const half = (live - grid.gutter) / 2;
  return columns <= FEW_COLUMNS && width > live - 1 && best <= half ? half : width;
}

const FEW_COLUMNS = 3;

/** The font of a cell. */
export const cellType = (cell: TableCell, ctx: Pick<PartContext, "types">) =>
  cell.strong ? ctx.types.tableStrong : ctx.types.table;

function desiredWidths(part: Table, c: number, ctx: PartContext) {
  const column = part.columns[c]!;
  const cells = part.rows.flatMap((row) => row[c] ?? []);
  const marks = cells.some((cell) => cell.mark) ? markRoom(ctx.types.table) : 0;
  const after = Math.max(0, ...cells.map(({ plusMinus }) => plusMinusRoom(plusMinus, ctx)));
  const width = (text: string, cell: TableCell) =>
    ctx.measure.width(text, cellType(cell, ctx).weight, ctx.types.table.size);
  const word = (cell: TableCell) =>
    widestWordWidth(cell.text, cellType(cell, ctx).weight, ctx.types.table.size, ctx.measure);
  const title = Math.max(
    widestWordWidth(column.title, "semibold", ctx.types.table.size, ctx.measure),
    ctx.measure.width(column.unit ?? "", "regular", ctx.types.caption.size),
  );
  if (column.align !== "decimal") {
    const least = Math.max(title, ...cells.map((cell) => word(cell) + marks));
    const full = Math.max(
      ctx.measure.width(column.title, "semibold", ctx.types.table.size),
      ...cells.map((cell) => width(cell.text, cell) + marks),
    );
    return { least, best: Math.max(least, full), inside: { rest: 0, marks, after: 0 } };
  }
  const figures = cells.flatMap((cell) => {
    const figure = splitFigure(cell.text);
    return figure ? [{ whole: width(figure.whole, cell), all: width(cell.text, cell) }] : [];
  });
  const words = cells.filter((cell) => splitFigure(cell.text) === undefined).map((cell) => word(cell) + marks);
  const rest = Math.max(0, ...figures.map((figure) => figure.all - figure.whole));
  const whole = Math.max(0, ...figures.map((figure) => figure.whole));
  const least = Math.max(title, whole + rest + marks, ...words) + after;
  // Words among figures, such as the name of the cam's row, stay on one line where there is room.
  const said = cells.filter((cell) => splitFigure(cell.text) === undefined).map((cell) => width(cell.text, cell));
  const full = c === 0 ? Math.max(ctx.measure.width(column.title, "semibold", ctx.types.table.size), ...said) : 0;
  const best = Math.max(least, full, twoLineWidth(column.title, ctx) + after);
  return { least, best, inside: { rest, marks, after } };
}

/** The least width in which a title stands on two lines. */
function twoLineWidth(title: string, ctx: PartContext): number {
  const words = title.split(" ");
  const width = (some: readonly string[]) => ctx.measure.width(some.join(" "), "semibold", ctx.types.table.size);
  return Math.min(...words.map((_, k) => Math.max(width(words.slice(0, k + 1)), width(words.slice(k + 1)))));
}

/** Room of a ± with the white before it. */
function plusMinusRoom(text: string | undefined, ctx: PartContext): number {
  return text === undefined
    ? 0
    : ctx.measure.width(text, ctx.types.table.weight, ctx.types.table.size) + BEFORE_PLUS_MINUS;
}

/** White between a figure's mark and its ± [pt]. */
const BEFORE_PLUS_MINUS = 4;

/** A column's share of the width that is left: by weight where a table gives weights, else alike. */
function extraWidth(part: Table, c: number, left: number): number {
  const weights = part.columns.map((column) => column.weight ?? 0);
  const all = sum(weights);
  if (all > 0) return (left * weights[c]!) / all;
  // The first column's figures stay near the edge.
  if (c === 0 && part.columns.length > 1) return 0;
  return left / Math.max(1, part.columns.length - 1);
}

/** Narrow columns get their best width; wide ones share the rest equally. */
function levelWidths(
  wants: readonly { readonly least: number; readonly best: number }[],
  room: number,
): readonly number[] {
  const at = (level: number) => wants.map((want) => Math.max(want.least, Math.min(want.best, level)));
  let [low, high] = [0, room];
  for (let i = 0; i < 50; i++) {
    const level = (low + high) / 2;
    if (sum(at(level)) <= room) low = level;
    else high = level;
  }
  return at(low);
}

const sum = (values: readonly number[]) => values.reduce((a, b) => a + b, 0);

/** A figure split before its decimals, to align a column on the units. */
type SplitFigure = { readonly whole: string; readonly rest: string };

const figure = /^([^\p{L}\d]*\d+(?:[\u00a0\u2009\u202f ]\d{3})*)(?![\d])(.*)$/u;

/** Parts "−12.4", "+3", "± 0.8" before the decimal mark or where the whole number ends; a lone dash stands on the units. */
export function splitFigure(text: string): SplitFigure | undefined {
  if (/^[–—-]$/.test(text)) return { whole: text, rest: "" };
  const match = figure.exec(text);
  return match ? { whole: match[1]!, rest: match[2]! } : undefined;
}
