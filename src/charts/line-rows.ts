import type { Axis, LineChart } from "../sheet/content.ts";
import type { ChartEnv } from "./chart-env.ts";
import { held, onAxis } from "./check-axis.ts";
import { clipLine } from "./geometry.ts";
import { flagOf, markerOf } from "./markers.ts";

/** The rows that fill the line shape: what is drawn, with its looks. */
export function lineRows(chart: LineChart, topLabels: readonly string[], { colors }: ChartEnv) {
  const { x, y } = chart;
  const panel = { x: x.start, y: y.start, width: x.end - x.start, height: y.end - y.start };
  const readings = chart.series.flatMap((series) => series.points.map((point) => ({ series, point })));
  const bars = readings.flatMap(({ series, point }) =>
    point.plusMinus !== undefined && point.plusMinus > 0
      ? [{ x: point.x, color: series.style.color, ...errorOf(y, point.y, point.plusMinus) }]
      : [],
  );
  return {
    bases: [{ from: x.start, to: x.end, at: y.start, color: colors.quiet }],
    bands: (chart.bands ?? []).flatMap(({ points }, band) =>
      points
        .filter((point) => onAxis(x, point.x))
        .map((point) => ({
          band,
          x: held(x, point.x),
          low: held(y, point.low),
          high: held(y, point.high),
          color: colors.ink,
        })),
    ),
    xMarks: (chart.marks ?? [])
      .filter((mark) => mark.axis === "x" && onAxis(x, mark.at))
      .map(({ at }) => ({ at, color: colors.quiet })),
    yMarks: (chart.marks ?? [])
      .filter((mark) => mark.axis === "y" && onAxis(y, mark.at))
      .map(({ at }) => ({ at, color: colors.quiet })),
    tops: (chart.top?.ticks ?? []).map(({ at }, i) => ({ at, label: topLabels[i] ?? "", color: colors.quiet })),
    curves: chart.series.flatMap(({ curve, style }, s) =>
      clipLine(curve, panel).flatMap((piece, p) =>
        piece.map(([px, py]) => ({
          line: `${s}/${p}`,
          x: px,
          y: py,
          color: style.color,
          width: style.width,
          dash: style.dash,
        })),
      ),
    ),
    errors: bars.map(({ x, low, high, color }) => ({ x, low, high, color })),
    caps: bars.flatMap(({ x, color, caps }) => caps.map((y) => ({ x, y, color }))),
    readings: readings.map(({ series, point }) => ({
      x: point.x,
      y: point.y,
      ...markerOf(series, point.kind, colors.paper),
    })),
    flags: readings.flatMap(({ series, point }) => {
      const flag = flagOf(series, point.kind);
      return flag ? [{ x: point.x, y: point.y, ...flag }] : [];
    }),
  };
}

/** An error bar held on the axis; the ends the axis cuts get no cap. */
export function errorOf(axis: Axis, value: number, plusMinus: number) {
  const ends = [value - plusMinus, value + plusMinus];
  const [low, high] = ends.map((end) => held(axis, end));
  return { low: low!, high: high!, caps: ends.filter((end) => onAxis(axis, end)) };
}
