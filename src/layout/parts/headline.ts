import type { Headline } from "../../sheet/content.ts";
import { type FlowBox, type Frame, shift } from "../flow-box.ts";
import type { PlacedItem } from "../page.ts";
import { ruleAt, textAt, textBox } from "../set-text.ts";
import type { PartContext } from "../setting.ts";
import { grid, space, type Type, types } from "../type-sizes.ts";
import { markRoom, verdictMark } from "./verdict-mark.ts";

type Cell = Headline["cells"][number];
const top = 5;

/** The big numbers, side by side in equal columns, each under a rule; what belongs to one number is one paragraph. */
export function headline(part: Headline, ctx: PartContext): readonly FlowBox[] {
  const across = cellsAcross(part, ctx);
  const width = cellWidth(across, ctx);
  const inner = { ...ctx, width };
  const rows = Array.from({ length: Math.ceil(part.cells.length / across) }, (_, r) => r * across);
  return rows.map((first, r) => {
    const cells = part.cells.slice(first, first + across);
    const labels = cells.map((cell, i) => cellLabel(cell, first + i, part.large === true, inner));
    // Numbers share one baseline, however long their labels are.
    const start = top + Math.max(...labels.map((frame) => frame.height));
    const bodies = cells.map((cell, i) => cellBody(cell, first + i, start, part.large === true, inner));
    return {
      height: Math.max(...bodies.map((frame) => frame.height)),
      items: cells.flatMap((_, i) => {
        const items = [ruleAt(0.5, 0, width, 0.75, ctx.colors.rule, ctx), ...labels[i]!.items, ...bodies[i]!.items];
        return shift(items, i * (width + grid.gutter), 0);
      }),
      gap: r === 0 ? space.part : space.row,
      tie: false,
    };
  });
}

const cellWidth = (across: number, ctx: PartContext) => (ctx.width - (across - 1) * grid.gutter) / across;

/** As many side by side as leave every number whole. */
function cellsAcross(part: Headline, ctx: PartContext): number {
  const most = Math.max(1, Math.min(part.cells.length, part.large ? 3 : 4));
  const { weight, size } = types.number;
  const widest = Math.max(0, ...part.cells.map(({ number }) => ctx.measure.width(number, weight, size)));
  const fitting = Array.from({ length: most }, (_, i) => most - i).find((across) => cellWidth(across, ctx) >= widest);
  return fitting ?? 1;
}

function cellLabel(cell: Cell, index: number, large: boolean, ctx: PartContext): Frame {
  const ink = { color: ctx.colors.quiet, tag: cellTag(index, ctx) };
  const type = large ? types.body : types.table;
  return textBox([{ text: cell.label, weight: "regular" }], { x: 0, y: top, width: ctx.width }, type, ink, ctx);
}

function cellBody(cell: Cell, index: number, start: number, large: boolean, ctx: PartContext): Frame {
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

  add(cell.number, types.number, accent);
  const last = items.at(-1);
  const after = last?.kind === "text" ? last.x + last.width + 4 : 0;
  const unitFits = after + ctx.measure.width(cell.unit ?? "", "regular", types.body.size) <= ctx.width;
  if (cell.unit !== undefined && unitFits) {
    // On the number's own baseline, whose lead it borrows.
    const unit = { ...types.body, lead: types.number.lead };
    const drop = (ctx.measure.capHeight * (types.number.size - unit.size)) / 2;
    items.push(textAt(cell.unit, after, y - types.number.lead + drop, unit, { color: ink, tag }, ctx));
  }
  if (cell.unit !== undefined && !unitFits) add(cell.unit, types.body, ink);
  y += 2;
  if (cell.verdict) {
    const type = large ? types.verdictLarge : types.strong;
    items.push(verdictMark(cell.verdict.mark, 0, y, type, ctx));
    add(cell.verdict.text, type, ink, markRoom(type));
  }
  // Always under the verdict, so that verdicts share one baseline too.
  if (cell.was !== undefined) add(cell.was, types.table, quiet);
  if (cell.note !== undefined) add(cell.note, types.caption, quiet);
  return { height: y, items };
}

const cellTag = (index: number, ctx: PartContext) => ({ kind: "paragraph", id: `${ctx.id}-${index}` }) as const;
