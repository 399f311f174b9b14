import type { PathCommand } from "../../charts/drawing.ts";
import type { VerdictMark } from "../../sheet/content.ts";
import type { PlacedItem, Tag } from "../page.ts";
import { baselineOffset } from "../set-text.ts";
import type { PartContext } from "../setting.ts";
import type { Type } from "../type-sizes.ts";

/** Width of a mark beside text of a type size. */
const markWidth = (type: Type) => type.size * 0.62;
export const markRoom = (type: Type) => type.size * 0.95;

/** The drawn shape beside a verdict's words; an artifact where they say it all. `y` is the top of the line. */
export function verdictMark(
  mark: VerdictMark,
  x: number,
  y: number,
  type: Type,
  ctx: PartContext,
  tag: Tag = { kind: "artifact" },
): PlacedItem {
  const side = markWidth(type);
  const middle = baselineOffset(type, ctx) - (ctx.measure.capHeight * type.size) / 2;
  const item =
    mark === "unknown" || mark === "open"
      ? ({ kind: "path", role: "shape", d: ring(side), stroke: { color: ctx.colors.ink, width: side / 7 } } as const)
      : ({ kind: "path", role: "shape", d: shapes[mark](side), fill: ctx.colors.ink } as const);
  return {
    kind: "drawing",
    x,
    y: y + middle - side / 2,
    drawing: { width: side, height: side, items: [item] },
    tag,
    block: ctx.block,
  };
}

const polygon = (side: number, corners: readonly (readonly [number, number])[]): readonly PathCommand[] => [
  ...corners.map(([x, y], i) => [i === 0 ? "M" : "L", x * side, y * side] as const),
  ["Z"],
];
const shapes = {
  up: (side: number) =>
    polygon(side, [
      [0, 0.92],
      [0.5, 0.06],
      [1, 0.92],
    ]),
  down: (side: number) =>
    polygon(side, [
      [0, 0.08],
      [0.5, 0.94],
      [1, 0.08],
    ]),
  // Two bars: one alone would read as the dash of a missing figure.
  level: (side: number) => [
    ...polygon(side, [
      [0, 0.2],
      [1, 0.2],
      [1, 0.4],
      [0, 0.4],
    ]),
    ...polygon(side, [
      [0, 0.62],
      [1, 0.62],
      [1, 0.82],
      [0, 0.82],
    ]),
  ],
};

const ring = (side: number) => circle(side / 2, side / 2, side * 0.4);

/** A circle of four cubic curves. */
export function circle(x: number, y: number, r: number): readonly PathCommand[] {
  const k = r * 0.5522847498;
  return [
    ["M", x + r, y],
    ["C", x + r, y + k, x + k, y + r, x, y + r],
    ["C", x - k, y + r, x - r, y + k, x - r, y],
    ["C", x - r, y - k, x - k, y - r, x, y - r],
    ["C", x + k, y - r, x + r, y - k, x + r, y],
    ["Z"],
  ];
}
