import type { LineChart } from "../sheet/content.ts";
import { held, onAxis } from "./check-axis.ts";
import type { Obstacles } from "./free-spot.ts";
import { bottom, clipLine, type Point, right, type Segment } from "./geometry.ts";
import { errorOf } from "./line-rows.ts";
import { MARKER_REACH } from "./markers.ts";
import type { Box } from "./scenegraph.ts";

/** From data to the drawing's points. */
export type ToPoint = (x: number, y: number) => Point;

/** What a line chart draws in its panel, as labels see it. */
export function obstaclesOf(
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
      const { low, high } = errorOf(y, point.y, point.plusMinus);
      return [[toPoint(point.x, low), toPoint(point.x, high)]];
    }),
  );
  const lines = marks.flatMap(({ axis, at }): Segment[] => {
    if (!onAxis(axis === "x" ? x : y, at)) return [];
    return [axis === "x" ? [toPoint(at, y.start), toPoint(at, y.end)] : [toPoint(x.start, at), toPoint(x.end, at)]];
  });
  // A band as its upright strokes: points lie close enough that no label passes between them.
  const uprights = bands.flatMap(({ points }) =>
    points
      .filter((point) => onAxis(x, point.x))
      .map((point): Segment => [toPoint(point.x, held(y, point.low)), toPoint(point.x, held(y, point.high))]),
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
