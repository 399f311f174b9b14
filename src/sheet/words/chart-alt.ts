import { formatNumber } from "../../units/show.ts";
import type { Axis, BarChart, DotStrip, FlowPanel, LineChart } from "../content.ts";
import { fewestDecimals } from "../display.ts";

/** Upper limit of decimals in alternative text; lift ÷ diameter has no last digit. */
const MOST_DECIMALS = 3;

/** Alternative text of a line chart, from its own data: type, subject, ranges, message. */
export function lineAlt(what: string, chart: LineChart, message?: string): string {
  const across = chart.series.flatMap((series) => [
    ...series.points.map((point) => point.x),
    ...series.curve.slice(0, 1).map(([at]) => at),
  ]);
  const places = fewestDecimals(across, MOST_DECIMALS);
  const x = (value: number) => formatNumber(value, places);
  const y = (value: number) => formatNumber(value, chart.y.decimals + 1);
  const end = (axis: Axis, value: number) => formatNumber(value, axis.decimals);
  const lines = chart.series.flatMap((series) => {
    const points = series.points.length > 0 ? series.points.map((point) => [point.x, point.y] as const) : series.curve;
    const first = points[0];
    const last = points.at(-1);
    if (!first || !last) return [];
    const top = points.reduce((high, point) => (point[1] > high[1] ? point : high), first);
    const peak = top === first || top === last ? "" : `, highest ${y(top[1])} at ${x(top[0])}`;
    return [`${series.name}: ${y(first[1])} at ${x(first[0])} to ${y(last[1])} at ${x(last[0])}${peak}.`];
  });
  const axes = `Across: ${chart.x.title}, ${end(chart.x, chart.x.start)} to ${end(chart.x, chart.x.end)}. Up: ${chart.y.title === "" ? "" : `${chart.y.title}, `}${end(chart.y, chart.y.start)} to ${end(chart.y, chart.y.end)}.`;
  return [`Line chart of ${what}.`, axes, ...lines, ...(message ? [message] : [])].join(" ");
}

/** Alternative text of a bar chart. */
export function barAlt(what: string, chart: BarChart, message?: string): string {
  const y = (value: number) => formatNumber(value, chart.y.decimals + 1);
  const values = chart.bars.map((bar) => bar.value);
  const range = values.length > 0 ? [`Lowest ${y(Math.min(...values))}, highest ${y(Math.max(...values))}.`] : [];
  const axes = `Across: ${chart.x.title}. Up: ${chart.y.title}.`;
  return [`Bar chart of ${what}.`, axes, ...range, ...(message ? [message] : [])].join(" ");
}

/** Alternative text of a flow panel: as a line chart, and what its marks at the cam say. */
export function panelAlt(what: string, chart: FlowPanel, message?: string): string {
  const { cam, gain } = chart;
  const x = (value: number) => formatNumber(value, fewestDecimals([value], MOST_DECIMALS));
  const marks = [
    cam && `The cam opens to ${x(cam.at)}.`,
    gain && "The area between first and latest curve is tinted.",
    message,
  ].filter(Boolean);
  return lineAlt(what, { kind: "line", x: chart.x, y: chart.y, series: chart.series }, marks.join(" ") || undefined);
}

/** Alternative text of a strip of dots: how many, their range, how many are within their ±. */
export function stripAlt(what: string, { x, y, dots, stems }: DotStrip, message?: string): string {
  const values = dots.map((dot) => dot.y);
  const value = (one: number) => formatNumber(one, y.decimals + 1);
  const range = `Lowest ${value(Math.min(...values))}, highest ${value(Math.max(...values))} ${y.title}.`;
  const hollow = dots.filter((dot) => dot.hollow).length;
  const within = `${hollow} of ${dots.length} are within their ±.`;
  return [
    `Dots of ${what}.`,
    `Across: ${x.title}. Up: ${y.title}.`,
    range,
    ...(stems ? [within] : []),
    ...(message ? [message] : []),
  ].join(" ");
}
