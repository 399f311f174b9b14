import type { Headline } from "../../sheet/content.ts";
import { type FlowBox, type Frame, shift } from "../flow-box.ts";
import type { PlacedItem } from "../page.ts";
import { baselineOffset, ruleAt, textAt, textBox } from "../set-text.ts";
import type { PartContext } from "../setting.ts";
import { grid, space, type Type } from "../type-sizes.ts";
import { markRoom, verdictMark } from "./verdict-mark.ts";

type Cell = Headline["cells"][number];
const top = 5;

/** The big numbers, side by side in equal columns, each under a rule; what belongs to one number is one paragraph. */
export function headline(part: Headline, ctx: PartContext): readonly FlowBox[] {
  const across = cellsAcross(part, ctx);
  const width = cellWidth(across, ctx);
  const inner = { ...ctx, width };
  const rows = Array.from({ length: Math.ceil(part.cells.length / across) }, (_, r) => r * across);
  const wholeRule = ctx.phone === true;
  const title = part.title === undefined ? [] : [titleBox(part.title, part.verdict, ctx)];
  const boxes = rows.map((first, r) => {
    const cells = part.cells.slice(first, first + across);
    const labels = cells.map((cell, i) => cellLabel(cell, first + i, part.large === true, inner));
    // Numbers share one baseline, however long their labels are.
    const start = top + Math.max(...labels.map((frame) => frame.height));
    const bodies = cells.map((cell, i) => cellBody(cell, first + i, start, part, inner));
    return {
      height: Math.max(...bodies.map((frame) => frame.height)),
      items: cells.flatMap((_, i) => {
        const to = wholeRule && i === 0 ? ctx.width : wholeRule ? 0 : width;
        const rule =
          title.length > 0 || to === 0 || part.ruledBelow ? [] : [ruleAt(0.5, 0, to, 0.75, ctx.colors.rule, ctx)];
        return shift([...rule, ...labels[i]!.items, ...bodies[i]!.items], i * (width + gutterOf(across, ctx)), 0);
      }),
      gap: r > 0 ? space.row : title.length > 0 ? 0 : space.part,
      tie: false,
    };
  });
  return [...title, ...(part.ruledBelow ? boxes.map((box) => ruleBelow(box, ctx)) : boxes)];
}

function ruleBelow(box: FlowBox, ctx: PartContext): FlowBox {
  const y = box.height + top;
  return { ...box, height: y + 0.5, items: [...box.items, ruleAt(y, 0, ctx.width, 0.75, ctx.colors.rule, ctx)] };
}

/** What the numbers are of, under the rule; the verdict of them all at the right end of the line, or below it. */
function titleBox(text: string, verdict: Headline["verdict"], ctx: PartContext): FlowBox {
  const { strong, verdict: type } = ctx.types;
  const ink = { color: ctx.colors.ink, tag: cellTag("title", ctx) };
  const rule = ruleAt(0.5, 0, ctx.width, 0.75, ctx.colors.rule, ctx);
  const frame = textBox([{ text, weight: "semibold" }], { x: 0, y: top, width: ctx.width }, strong, ink, ctx);
  if (!verdict) return { height: top + frame.height, items: [rule, ...frame.items], gap: space.part, tie: true };
  const room = markRoom(type);
  const own = room + ctx.measure.width(verdict.text, type.weight, type.size);
  const beside = ctx.measure.width(text, strong.weight, strong.size) + grid.gutter + own <= ctx.width;
  const [x, y] = beside ? [ctx.width - own, top] : [0, top + frame.height];
  const box = { x: x + room, y, width: ctx.width - x - room + 0.01 };
  const words = textBox([{ text: verdict.text, weight: type.weight }], box, type, ink, ctx);
  const drop = beside ? baselineOffset(type, ctx) - baselineOffset(strong, ctx) : 0;
  const items = [rule, ...shift(frame.items, 0, drop), verdictMark(verdict.mark, x, y, type, ctx), ...words.items];
  return { height: y + words.height, items, gap: space.part, tie: true };
}

/** Between numbers side by side: closer where three stand on a phone. */
const gutterOf = (across: number, { phone }: PartContext) => (phone && across > 2 ? 8 : grid.gutter);

const cellWidth = (across: number, ctx: PartContext) => (ctx.width - (across - 1) * gutterOf(across, ctx)) / across;

/** As many side by side as leave every number whole. */
function cellsAcross(part: Headline, ctx: PartContext): number {
  const most = Math.max(1, Math.min(part.cells.length, part.large ? 3 : 4));
  const { weight, size } = numberType(part, ctx);
  const widest = Math.max(0, ...part.cells.map(({ number }) => ctx.measure.width(number, weight, size)));
  const fitting = Array.from({ length: most }, (_, i) => most - i).find((across) => cellWidth(across, ctx) >= widest);
  return fitting ?? 1;
}

/** Read on a phone, one number a side is as big as on a first page. */
const numberType = ({ cells, large }: Pick<Headline, "cells" | "large">, ctx: PartContext): Type =>
  ctx.phone && large && cells.length <= 2 ? ctx.types.bigNumber : ctx.types.number;

function cellLabel(cell: Cell, index: number, large: boolean, ctx: PartContext): Frame {
  const ink = { color: ctx.colors.quiet, tag: cellTag(index, ctx) };
  const type = large ? ctx.types.body : ctx.types.table;
  return textBox([{ text: cell.label, weight: "regular" }], { x: 0, y: top, width: ctx.width }, type, ink, ctx);
}

function cellBody(cell: Cell, index: number, start: number, part: Headline, ctx: PartContext): Frame {
  const big = numberType(part, ctx);
  const large = part.large === true;
  const tag = cellTag(index, ctx);
  const { accent, ink, quiet } = ctx.colors;
  const items: PlacedItem[] = [];
  let y = start;
  const add = (text: string, type: Type, color: string, indent = 0) => {
    const box = { x: indent, y, width: ctx.width - indent };
    const frame = textBox([{ text, weight: type.weight }], box, type, { color, tag }, ctx);
    items.push(...frame.items);
    y += frame.height;
  };

  add(cell.number, big, accent);
  const last = items.at(-1);
  const after = last?.kind === "text" ? last.x + last.width + 4 : 0;
  const unitFits = after + ctx.measure.width(cell.unit ?? "", "regular", ctx.types.body.size) <= ctx.width;
  if (cell.unit !== undefined && unitFits) {
    // On the number's own baseline, whose lead it borrows.
    const unit = { ...ctx.types.body, lead: big.lead };
    const drop = (ctx.measure.capHeight * (big.size - unit.size)) / 2;
    items.push(textAt(cell.unit, after, y - big.lead + drop, unit, { color: ink, tag }, ctx));
  }
  if (cell.unit !== undefined && !unitFits) add(cell.unit, ctx.types.body, ink);
  y += 2;
  if (cell.verdict) {
    const type = large ? ctx.types.verdictLarge : ctx.types.strong;
    items.push(verdictMark(cell.verdict.mark, 0, y, type, ctx));
    add(cell.verdict.text, type, ink, markRoom(type));
  }
  // Always under the verdict, so that verdicts share one baseline too.
  const narrow = ctx.phone && part.cells.length > 2;
  if (cell.was !== undefined) add(cell.was, narrow ? ctx.types.caption : ctx.types.table, quiet);
  if (cell.note !== undefined) add(cell.note, ctx.types.caption, quiet);
  return { height: y, items };
}

const cellTag = (index: number | string, ctx: PartContext) =>
  ({ kind: "paragraph", id: `${ctx.id}-${index}` }) as const;
