import type { TrueSizeRow } from "../../sheet/content.ts";
import { type FlowBox, type Frame, shift } from "../flow-box.ts";
import type { PlacedItem } from "../page.ts";
import { textBox } from "../set-text.ts";
import type { PartContext } from "../setting.ts";
import { grid, space } from "../type-sizes.ts";

type TypesetFigure = { readonly width: number; readonly height: number; readonly items: readonly PlacedItem[] };

/** Drawings at 1 : 1: never made smaller. As many in a row as fit; one larger than the room gives way to a sentence. */
export function drawings(part: TrueSizeRow, ctx: PartContext): readonly FlowBox[] {
  const figures = part.figures.map((figure, i) => typesetFigure(figure, `${ctx.id}-${i}`, ctx));
  const drawn = figures.filter((figure) => "width" in figure);
  const rows = arrangeRows(drawn, ctx.width);
  const caption = drawn.length > 0 ? rowCaption(part.caption, ctx) : undefined;
  return [
    ...rows.map((row, i) => ({ ...rowBox(row, i + 1 < rows.length || caption !== undefined) })),
    ...(caption ? [{ ...caption, gap: space.afterTitle, tie: false }] : []),
    ...figures.filter((figure) => !("width" in figure)).map((note) => ({ ...note, gap: space.part, tie: false })),
  ];
}

function typesetFigure(figure: TrueSizeRow["figures"][number], id: string, ctx: PartContext): TypesetFigure | Frame {
  const drawing = ctx.drawTrueSize(figure.drawing, ctx.width);
  const tag = { kind: "paragraph", id: `${id}-title` } as const;
  const group = groupId(ctx);
  const title = (width: number) =>
    textBox(
      [{ text: figure.title, weight: "semibold" }],
      { x: 0, y: 0, width },
      ctx.types.strong,
      { color: ctx.colors.ink, tag: { ...tag, group } },
      ctx,
    );
  const note = () =>
    textBox(
      [{ text: figure.fallback, weight: "regular" }],
      { x: 0, y: 0, width: ctx.width },
      ctx.types.caption,
      { color: ctx.colors.quiet, tag },
      ctx,
    );
  if (!drawing) return note();
  // A title may be longer than its drawing is wide, up to half of the page.
  const long = ctx.measure.width(figure.title, ctx.types.strong.weight, ctx.types.strong.size) + 1;
  const width = Math.max(drawing.width, Math.min(long, (ctx.width - grid.gutter) / 2));
  const head = figure.title === "" ? { height: 0, items: [] } : title(width);
  const top = head.height + (figure.title === "" ? 0 : space.afterTitle);
  const height = top + drawing.height;
  // A caption of a few lines stands under it.
  if (height + 4 * ctx.types.caption.lead > ctx.pageHeight) return note();
  const picture: PlacedItem = {
    kind: "drawing",
    x: 0,
    y: top,
    drawing,
    tag: { kind: "figure", id, alt: figure.alt, group },
    block: ctx.block,
  };
  return { width, height, items: [...head.items, picture] };
}

/** From left to right: on the middle of the page where that is free, else after the one before. */
function arrangeRows(
  figures: readonly TypesetFigure[],
  width: number,
): readonly (readonly { readonly x: number; readonly figure: TypesetFigure }[])[] {
  const half = (width + grid.gutter) / 2;
  const rows: { x: number; figure: TypesetFigure }[][] = [];
  for (const figure of figures) {
    const row = rows.at(-1);
    const before = row?.at(-1);
    const next = before ? before.x + before.figure.width + grid.gutter : 0;
    const x = [half, next].find((one) => one >= next && one + figure.width <= width);
    if (row && x !== undefined) row.push({ x, figure });
    else rows.push([{ x: 0, figure }]);
  }
  return rows;
}

const rowBox = (row: readonly { readonly x: number; readonly figure: TypesetFigure }[], tie: boolean): FlowBox => ({
  height: Math.max(...row.map(({ figure }) => figure.height)),
  items: row.flatMap(({ x, figure }) => shift(figure.items, x, 0)),
  gap: space.part,
  tie,
});

/** All drawings of a row with their titles and caption. */
const groupId = (ctx: PartContext) => `${ctx.id}-drawings`;

function rowCaption(text: string, ctx: PartContext): Frame {
  const of = groupId(ctx);
  const ink = { color: ctx.colors.quiet, tag: { kind: "caption", id: `${of}-caption`, of } } as const;
  return textBox([{ text, weight: "regular" }], { x: 0, y: 0, width: ctx.width }, ctx.types.caption, ink, ctx);
}
