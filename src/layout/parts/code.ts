import type { PathCommand } from "../../charts/drawing.ts";
import type { Code } from "../../sheet/content.ts";
import type { FlowBox, Frame } from "../flow-box.ts";
import { textBox } from "../set-text.ts";
import type { PartContext } from "../setting.ts";
import { grid, space } from "../type-sizes.ts";

/** Largest side of one cell [pt]: 0.6 mm, enough for a telephone camera at reading distance. */
const largest = 1.7;
/** Least width of the words beside it [pt]. */
const NARROWEST = 80;

/** A QR code at the right of its column; the white around it is the page's own. */
export function code(part: Code, ctx: PartContext): readonly FlowBox[] {
  const cells = part.cells.length;
  const cell = Math.min(largest, ctx.width / cells);
  const side = cell * cells;
  const d = part.cells.flatMap((row, y) =>
    darkRuns(row).flatMap(([from, to]) => barPath(from * cell, to * cell, y * cell, cell)),
  );
  const drawing = {
    width: side,
    height: side,
    items: [{ kind: "path", role: "shape", d, fill: ctx.colors.ink } as const],
  };
  const tag = { kind: "figure", id: ctx.id, alt: part.alt } as const;
  const beside = captionBeside(part.caption, ctx.width - side - grid.gutter, ctx);
  return [
    {
      height: Math.max(side, beside.height),
      items: [{ kind: "drawing", x: ctx.width - side, y: 0, drawing, tag, block: ctx.block }, ...beside.items],
      gap: space.part,
      tie: false,
    },
  ];
}

/** What the code holds, left of it; nothing where words would break at each one. */
function captionBeside(text: string | undefined, width: number, ctx: PartContext): Frame {
  if (text === undefined || width < NARROWEST) return { height: 0, items: [] };
  const ink = { color: ctx.colors.quiet, tag: { kind: "paragraph", id: `${ctx.id}-caption` } } as const;
  return textBox([{ text, weight: "regular" }], { x: 0, y: 0, width }, ctx.types.caption, ink, ctx);
}

/** Dark cells of a row that touch, as one: no hair lines between them. */
function darkRuns(row: readonly boolean[]): readonly (readonly [number, number])[] {
  return row.flatMap((dark, x) => {
    if (!dark || row[x - 1]) return [];
    const end = row.indexOf(false, x);
    return [[x, end < 0 ? row.length : end] as const];
  });
}

const barPath = (left: number, right: number, top: number, height: number): readonly PathCommand[] => [
  ["M", left, top],
  ["L", right, top],
  ["L", right, top + height],
  ["L", left, top + height],
  ["Z"],
];
