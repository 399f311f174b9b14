import { type PathCommand, roundPoint } from "./drawing.ts";

export type Box = { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
export type Point = readonly [x: number, y: number];
export type Segment = readonly [Point, Point];

export const right = (box: Box) => box.x + box.width;
export const bottom = (box: Box) => box.y + box.height;

/** Expands a box by `by` on every side. */
export const expandBox = (box: Box, by: number): Box => ({
  x: box.x - by,
  y: box.y - by,
  width: box.width + 2 * by,
  height: box.height + 2 * by,
});

/** Whether two boxes share any area. */
export const boxesOverlap = (a: Box, b: Box) => a.x < right(b) && b.x < right(a) && a.y < bottom(b) && b.y < bottom(a);

/** Whether the first box lies wholly in the second. */
export const isBoxInside = (a: Box, b: Box) =>
  a.x >= b.x && a.y >= b.y && right(a) <= right(b) && bottom(a) <= bottom(b);

/** Whether a segment lies wholly beyond one side of a box; a cheap test before clipping. */
export const isBeyondSide = ([[x0, y0], [x1, y1]]: Segment, box: Box) =>
  Math.max(x0, x1) < box.x ||
  Math.min(x0, x1) > right(box) ||
  Math.max(y0, y1) < box.y ||
  Math.min(y0, y1) > bottom(box);

/** Clips a segment to a box (Liang and Barsky); undefined if it misses. */
export function clipSegment([[x0, y0], [x1, y1]]: Segment, box: Box): Segment | undefined {
  const [dx, dy] = [x1 - x0, y1 - y0];
  let [from, to] = [0, 1];
  const edges: readonly Point[] = [
    [-dx, x0 - box.x],
    [dx, right(box) - x0],
    [-dy, y0 - box.y],
    [dy, bottom(box) - y0],
  ];
  for (const [towards, distance] of edges) {
    if (towards === 0) {
      if (distance < 0) return undefined;
      continue;
    }
    const share = distance / towards;
    if (towards < 0) from = Math.max(from, share);
    else to = Math.min(to, share);
    if (from > to) return undefined;
  }
  return [from === 0 ? [x0, y0] : [x0 + from * dx, y0 + from * dy], to === 1 ? [x1, y1] : [x0 + to * dx, y0 + to * dy]];
}

const containsPoint = (box: Box, [x, y]: Point) => x >= box.x && x <= right(box) && y >= box.y && y <= bottom(box);
const isFinitePoint = ([x, y]: Point) => Number.isFinite(x) && Number.isFinite(y);

/** Clips a polyline to a box, into pieces; a point that is not a number breaks it. */
export function clipLine(points: readonly Point[], box: Box): readonly (readonly Point[])[] {
  const pieces: Point[][] = [];
  let open: Point[] | undefined;
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1]!, points[i]!];
    const clipped =
      containsPoint(box, a) && containsPoint(box, b)
        ? ([a, b] as const)
        : isFinitePoint(a) && isFinitePoint(b)
          ? clipSegment([a, b], box)
          : undefined;
    if (!clipped) {
      open = undefined;
      continue;
    }
    if (!open || clipped[0] !== open.at(-1)) {
      const last = open?.at(-1);
      if (!last || last[0] !== clipped[0][0] || last[1] !== clipped[0][1]) {
        open = [clipped[0]];
        pieces.push(open);
      }
    }
    open!.push(clipped[1]);
  }
  return pieces;
}

/** A box as a closed path. */
export function boxPath(box: Box): readonly PathCommand[] {
  const [left, top, end, foot] = [
    roundPoint(box.x),
    roundPoint(box.y),
    roundPoint(right(box)),
    roundPoint(bottom(box)),
  ];
  return [["M", left, top], ["L", end, top], ["L", end, foot], ["L", left, foot], ["Z"]];
}

/** A polygon as a closed path. */
export const polygonPath = (points: readonly Point[]): readonly PathCommand[] => [...linePath(points), ["Z"]];

/** A polyline as an open path. */
export const linePath = (points: readonly Point[]): readonly PathCommand[] =>
  points.map(([x, y], i) => [i === 0 ? "M" : "L", roundPoint(x), roundPoint(y)] as const);

/** A circle as four cubics, whose handles are 4/3 · tan(π/8) of the radius long. */
export function circlePath([cx, cy]: Point, r: number): readonly PathCommand[] {
  const at = (x: number, y: number) => [roundPoint(cx + r * x), roundPoint(cy + r * y)] as const;
  const h = (4 / 3) * Math.tan(Math.PI / 8);
  return [
    ["M", ...at(1, 0)],
    ["C", ...at(1, h), ...at(h, 1), ...at(0, 1)],
    ["C", ...at(-h, 1), ...at(-1, h), ...at(-1, 0)],
    ["C", ...at(-1, -h), ...at(-h, -1), ...at(0, -1)],
    ["C", ...at(h, -1), ...at(1, -h), ...at(1, 0)],
    ["Z"],
  ];
}
