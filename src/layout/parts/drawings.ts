import type { TrueSizeRow } from "../../sheet/content.ts";
import { type FlowBox, type Frame, shift } from "../flow-box.ts";
import type { Placed } from "../page.ts";
import { textBox } from "../set-text.ts";
import type { Setting } from "../setting.ts";
import { grid, space, types } from "../type-sizes.ts";

type Set = { readonly width: number; readonly height: number; readonly items: readonly Placed[] };

/** Drawings at 1 : 1: never made smaller. As many in a row as fit; one larger than the room gives way to a sentence. */
export function drawings(part: TrueSizeRow, set: Setting): readonly FlowBox[] {
  const figures = part.figures.map((figure, i) => setFigure(figure, `${set.id}-${i}`, set));
  const drawn = figures.filter((figure) => "width" in figure);
  const rows = inRows(drawn, set.width);
  const caption = drawn.length > 0 ? captionOf(part.caption, set) : undefined;
  return [
    ...rows.map((row, i) => ({ ...slabOf(row, i + 1 < rows.length || caption !== undefined) })),
    ...(caption ? [{ ...caption, gap: space.afterTitle, tie: false }] : []),
    ...figures.filter((figure) => !("width" in figure)).map((note) => ({ ...note, gap: space.part, tie: false })),
  ];
}

function setFigure(figure: TrueSizeRow["figures"][number], id: string, set: Setting): Set | Frame {
  const drawing = set.drawTrueSize(figure.drawing, set.width);
  const tag = { kind: "paragraph", id: `${id}-title` } as const;
  const group = groupOf(set);
  const title = (width: number) =>
    textBox(
      [{ text: figure.title, weight: "semibold" }],
      { x: 0, y: 0, width },
      types.strong,
      { color: set.colors.ink, tag: { ...tag, group } },
      set,
    );
  const note = () =>
    textBox(
      [{ text: figure.otherwise, weight: "regular" }],
      { x: 0, y: 0, width: set.width },
      types.caption,
      { color: set.colors.quiet, tag },
      set,
    );
  if (!drawing) return note();
  // A title may be longer than its drawing is wide, up to half of the page.
  const long = set.measure.width(figure.title, types.strong.weight, types.strong.size) + 1;
  const width = Math.max(drawing.width, Math.min(long, (set.width - grid.gutter) / 2));
  const head = title(width);
  const top = head.height + space.afterTitle;
  const height = top + drawing.height;
  // A caption of a few lines stands under it.
  if (height + 4 * types.caption.lead > set.pageHeight) return note();
  const picture: Placed = {
    kind: "drawing",
    x: 0,
    y: top,
    drawing,
    tag: { kind: "figure", id, alt: figure.alt, group },
    block: set.block,
  };
  return { width, height, items: [...head.items, picture] };
}

/** From left to right: on the middle of the page where that is free, else after the one before. */
function inRows(
  figures: readonly Set[],
  width: number,
): readonly (readonly { readonly x: number; readonly figure: Set }[])[] {
  const half = (width + grid.gutter) / 2;
  const rows: { x: number; figure: Set }[][] = [];
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

const slabOf = (row: readonly { readonly x: number; readonly figure: Set }[], tie: boolean): FlowBox => ({
  height: Math.max(...row.map(({ figure }) => figure.height)),
  items: row.flatMap(({ x, figure }) => shift(figure.items, x, 0)),
  gap: space.part,
  tie,
});

/** All drawings of a row with their titles and caption. */
const groupOf = (set: Setting) => `${set.id}-drawings`;

function captionOf(text: string, set: Setting): Frame {
  const of = groupOf(set);
  const ink = { color: set.colors.quiet, tag: { kind: "caption", id: `${of}-caption`, of } } as const;
  return textBox([{ text, weight: "regular" }], { x: 0, y: 0, width: set.width }, types.caption, ink, set);
}
