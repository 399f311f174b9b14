import type { WriteIn } from "../../sheet/content.ts";
import type { FlowBox, Frame, RepeatedHead } from "../flow-box.ts";
import type { PlacedItem, Tag } from "../page.ts";
import { ruleAt, textAt } from "../set-text.ts";
import type { PartContext } from "../setting.ts";
import { space } from "../type-sizes.ts";
import { wrap } from "../wrap.ts";

/** High enough for a pencil: a little over 8 mm. */
const rowHeight = 0.316 * 72;
const line = { outer: 1, inner: 0.6 } as const;
const inset = 3;

type Box = { readonly x: number; readonly width: number };

/** Boxes to write in under a head that comes again on every page. */
export function writeIn(part: WriteIn, ctx: PartContext): readonly FlowBox[] {
  const shares = part.columns.reduce((sum, { share }) => sum + share, 0);
  let x = 0;
  const boxes = part.columns.map(({ share }): Box => {
    const box = { x, width: (share * ctx.width) / shares };
    x += box.width;
    return box;
  });
  const run: RepeatedHead = {
    head: writeInHead(part, boxes, false, ctx),
    again: writeInHead(part, boxes, true, ctx),
    close: { height: 1, items: [ruleAt(0, 0, ctx.width, line.outer, ctx.colors.ink, ctx)] },
  };
  const headRows = part.groups ? 2 : 1;
  const last = part.rows.length - 1;
  return part.rows.map((cells, r) => {
    const frame = writeInRow(part, cells, headRows + r, boxes, ctx);
    return {
      ...frame,
      gap: r === 0 ? space.part : 0,
      tie: r < last && (r === 0 || r === last - 1),
      run,
      opens: r === 0,
    };
  });
}

function writeInRow(
  part: WriteIn,
  cells: readonly string[],
  at: number,
  boxes: readonly Box[],
  ctx: PartContext,
): Frame {
  const lines = boxes.map((box, c) => ({
    c,
    box,
    wrapped: wrap(
      [{ text: cells[c] ?? "", weight: "regular" }],
      ctx.types.body.size,
      box.width - 2 * inset,
      ctx.measure,
    ),
  }));
  const tallest = Math.max(...lines.map((one) => one.wrapped.length));
  const height = Math.max(rowHeight, tallest * ctx.types.body.lead + 4);
  const texts = lines.flatMap((one) => {
    const top = (height - one.wrapped.length * ctx.types.body.lead) / 2;
    const header = one.c === 0 ? ({ header: "row" } as const) : {};
    const tag: Tag = { kind: "cell", table: ctx.id, row: at, column: one.c, ...header };
    return one.wrapped.flatMap((text, n) =>
      text.pieces.map((piece) =>
        textAt(
          piece.text,
          one.box.x + inset + piece.x,
          top + n * ctx.types.body.lead,
          ctx.types.body,
          { color: ctx.colors.ink, tag },
          ctx,
        ),
      ),
    );
  });
  const under = ruleAt(height, 0, ctx.width, line.inner, ctx.colors.ink, ctx);
  return { height, items: [...verticalRules(part, boxes, { group: 0, inner: 0 }, height, ctx), ...texts, under] };
}

function writeInHead(part: WriteIn, boxes: readonly Box[], again: boolean, ctx: PartContext): Frame {
  const items: PlacedItem[] = [ruleAt(0, 0, ctx.width, line.outer, ctx.colors.ink, ctx)];
  const ink = (tag: Tag) => ({ color: ctx.colors.ink, tag: again ? ({ kind: "artifact" } as const) : tag });
  const cell = (at: number, column: number, span = 1): Tag => ({
    kind: "cell",
    table: ctx.id,
    row: at,
    column,
    header: "column",
    ...(span > 1 ? { span } : {}),
  });
  let y = 2;
  if (part.groups) {
    let from = 0;
    for (const { text, span } of part.groups) {
      if (text !== "")
        items.push(textAt(text, boxes[from]!.x + inset, y, ctx.types.tableStrong, ink(cell(0, from, span)), ctx));
      from += span;
    }
    y += ctx.types.table.lead;
  }
  const at = part.groups ? 1 : 0;
  part.columns.forEach(({ title, unit }, c) => {
    const { x } = boxes[c]!;
    const text = unit === undefined ? title : `${title} ${unit}`;
    items.push(textAt(text, x + inset, y, { ...ctx.types.caption, lead: ctx.types.table.lead }, ink(cell(at, c)), ctx));
  });
  y += ctx.types.table.lead + 2;
  items.push(ruleAt(y, 0, ctx.width, line.outer, ctx.colors.ink, ctx));
  const under = part.groups ? 2 + ctx.types.table.lead : 0;
  return { height: y, items: [...items, ...verticalRules(part, boxes, { group: 0, inner: under }, y, ctx)] };
}

/** Upright lines between boxes, heavier at the edges and where a group begins. */
function verticalRules(
  part: WriteIn,
  boxes: readonly Box[],
  top: { readonly group: number; readonly inner: number },
  bottom: number,
  ctx: PartContext,
): readonly PlacedItem[] {
  const starts = new Set<number>();
  (part.groups ?? []).reduce((from, { span }) => {
    starts.add(from);
    return from + span;
  }, 0);
  return [...boxes, { x: ctx.width, width: 0 }].map(({ x }, c) => {
    const heavy = c === 0 || c === boxes.length || starts.has(c);
    return {
      kind: "rule",
      x1: x,
      y1: heavy ? top.group : top.inner,
      x2: x,
      y2: bottom,
      width: heavy ? line.outer : line.inner,
      color: ctx.colors.ink,
      tag: { kind: "artifact" },
      block: ctx.block,
    };
  });
}
