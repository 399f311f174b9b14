import type { Axis, LineChart } from "../sheet/content.ts";
import { axisShare, clampToAxis, isOnAxis } from "./axis.ts";
import type { ChartEnv } from "./chart-env.ts";
import { clipLine, type Point } from "./geometry.ts";
import { readingFlag, readingMarker } from "./markers.ts";

/** The part of a canvas context that an outline uses. */
type Pen = {
  readonly moveTo: (x: number, y: number) => void;
  readonly lineTo: (x: number, y: number) => void;
  readonly closePath: () => void;
};

/** A path through points from the panel's upper left corner [pt], as Vega's shape mark requires it. */
type Outline = { readonly context: (pen: Pen) => () => void };

export const outline = (points: readonly Point[], closed: boolean): Outline => ({
  context: (pen) => () => {
    points.forEach(([x, y], i) => {
      if (i === 0) pen.moveTo(x, y);
      else pen.lineTo(x, y);
    });
    if (closed) pen.closePath();
  },
});

/** Rows for the line shape, without its axes. `size`: the panel's [pt]. */
export function lineRows(
  chart: LineChart,
  topLabels: readonly string[],
  size: { readonly width: number; readonly height: number },
  { colors }: ChartEnv,
) {
  const { x, y } = chart;
  const panel = { x: x.start, y: y.start, width: x.end - x.start, height: y.end - y.start };
  const place = (px: number, py: number): Point => [
    axisShare(x, px) * size.width,
    (1 - axisShare(y, py)) * size.height,
  ];
  const readings = chart.series.flatMap((series) => series.points.map((point) => ({ series, point })));
  const bars = readings.flatMap(({ series, point }) =>
    point.plusMinus !== undefined && point.plusMinus > 0
      ? [{ x: point.x, color: series.style.color, ...errorBarSpan(y, point.y, point.plusMinus) }]
      : [],
  );
  const tops = chart.top?.ticks ?? [];
  return {
    bands: (chart.bands ?? []).flatMap(({ points }) => {
      const on = points.filter((point) => isOnAxis(x, point.x));
      const edge = (side: "low" | "high") =>
        on.map((point) => place(clampToAxis(x, point.x), clampToAxis(y, point[side])));
      return on.length > 0
        ? [{ outline: outline([...edge("low"), ...edge("high").reverse()], true), color: colors.ink }]
        : [];
    }),
    bases: [
      baseRow(x, y.start, colors.quiet),
      ...markLines(chart).map((line) => ({ ...line, color: colors.quiet, width: 0.75, dash: CAM_DASH })),
    ],
    topTicks: tops.map(({ at }) => ({ x: at, y: y.end, x2: at, y2: y.end, color: colors.quiet })),
    tops: tops.flatMap(({ at }, i) =>
      topLabels[i] ? [{ x: at, y: y.end, label: topLabels[i], color: colors.quiet }] : [],
    ),
    curves: chart.series.flatMap(({ curve, style: { color, width, dash } }) =>
      clipLine(curve, panel).map((piece) => ({
        outline: outline(
          piece.map(([px, py]) => place(px, py)),
          false,
        ),
        color,
        width,
        dash,
      })),
    ),
    errors: bars.map(({ x, low, high, color }) => ({ x, y: low, x2: x, y2: high, color })),
    caps: bars.flatMap(({ x, color, caps }) => caps.map((y) => ({ x, y, x2: x, y2: y, color }))),
    readings: readings.map(({ series, point }) => ({
      x: point.x,
      y: point.y,
      ...readingMarker(series, point.kind, colors.paper),
    })),
    flags: readings.flatMap(({ series, point }) => {
      const flag = readingFlag(series, point.kind);
      return flag ? [{ x: point.x, y: point.y, ...flag }] : [];
    }),
  };
}

/** Dash pattern of a limit and of the cam [pt]. */
export const CAM_DASH = [6, 2, 1, 2];

/** The base line, at `at` of the y axis. */
export const baseRow = (
  { start, end }: { readonly start: number; readonly end: number },
  at: number,
  color: string,
) => ({
  x: start,
  y: at,
  x2: end,
  y2: at,
  color,
  width: 0.75,
  dash: [],
});

/** Marks as lines across the panel, those of the x axis first. */
function markLines({ marks = [], x, y }: LineChart) {
  const upright = marks.filter((mark) => mark.axis === "x" && isOnAxis(x, mark.at));
  const level = marks.filter((mark) => mark.axis === "y" && isOnAxis(y, mark.at));
  return [
    ...upright.map(({ at }) => ({ x: at, y: y.end, x2: at, y2: y.start })),
    ...level.map(({ at }) => ({ x: x.end, y: at, x2: x.start, y2: at })),
  ];
}

/** An error bar clamped to the axis; clamped ends have no cap. */
export function errorBarSpan(axis: Axis, value: number, plusMinus: number) {
  const ends = [value - plusMinus, value + plusMinus];
  const [low, high] = ends.map((end) => clampToAxis(axis, end));
  return { low: low!, high: high!, caps: ends.filter((end) => isOnAxis(axis, end)) };
}
