import type { LineChart } from "../sheet/content.ts";
import { clampToAxis, isOnAxis } from "./axis.ts";
import {
  type Box,
  bottom,
  boxesOverlap,
  clipLine,
  clipSegment,
  expandBox,
  isBeyondSide,
  type Point,
  right,
  type Segment,
} from "./geometry.ts";
import { errorBarSpan } from "./line-rows.ts";
import { MARKER_REACH } from "./markers.ts";
/** What labels should avoid. */
export type Obstacles = { readonly segments: readonly Segment[]; readonly boxes: readonly Box[] };

/** Clearance around a label [pt]. */
const AIR = 1.5;

/** Number of obstacles that a box with its clearance touches. */
export function countHits(box: Box, { segments, boxes }: Obstacles, air = AIR): number {
  const area = expandBox(box, air);
  return (
    segments.reduce(
      (count, segment) => count + (!isBeyondSide(segment, area) && clipSegment(segment, area) ? 1 : 0),
      0,
    ) + boxes.reduce((count, other) => count + (boxesOverlap(area, other) ? 1 : 0), 0)
  );
}

/** The first candidate that touches nothing, else the first that touches least. */
export function freeSpot(candidates: readonly Box[], obstacles: Obstacles): Box | undefined {
  let best: { readonly box: Box; readonly count: number } | undefined;
  for (const box of candidates) {
    const count = countHits(box, obstacles);
    if (count === 0) return box;
    if (!best || count < best.count) best = { box, count };
  }
  return best?.box;
}

/** Maps data to the drawing's points. */
export type ToPoint = (x: number, y: number) => Point;

/** Obstacles in a line chart's panel. */
export function chartObstacles(
  { series, bands = [], marks = [], x, y }: LineChart,
  plot: Box,
  toPoint: ToPoint,
): Obstacles {
  const panel = { x: x.start, y: y.start, width: x.end - x.start, height: y.end - y.start };
  const curves = series.flatMap(({ curve }) =>
    clipLine(curve, panel).flatMap((piece) => {
      const points = piece.map(([px, py]) => toPoint(px, py));
      return points.slice(1).map((to, i): Segment => [points[i]!, to]);
    }),
  );
  const errors = series.flatMap(({ points }) =>
    points.flatMap((point): Segment[] => {
      if (!point.plusMinus) return [];
      const { low, high } = errorBarSpan(y, point.y, point.plusMinus);
      return [[toPoint(point.x, low), toPoint(point.x, high)]];
    }),
  );
  const lines = marks.flatMap(({ axis, at }): Segment[] => {
    if (!isOnAxis(axis === "x" ? x : y, at)) return [];
    return [axis === "x" ? [toPoint(at, y.start), toPoint(at, y.end)] : [toPoint(x.start, at), toPoint(x.end, at)]];
  });
  // Vertical strokes represent a band: its points are too close for a label to pass between.
  const uprights = bands.flatMap(({ points }) =>
    points
      .filter((point) => isOnAxis(x, point.x))
      .map(
        (point): Segment => [toPoint(point.x, clampToAxis(y, point.low)), toPoint(point.x, clampToAxis(y, point.high))],
      ),
  );
  const base: Segment = [
    [plot.x, bottom(plot)],
    [right(plot), bottom(plot)],
  ];
  const markers = series.flatMap(({ points }) =>
    points.map((point): Box => {
      const [px, py] = toPoint(point.x, point.y);
      const reach = point.kind === "good" ? 3 : MARKER_REACH;
      return { x: px - reach, y: py - reach, width: 2 * reach, height: 2 * reach };
    }),
  );
  return { segments: [...curves, ...errors, ...lines, ...uprights, base], boxes: markers };
}
