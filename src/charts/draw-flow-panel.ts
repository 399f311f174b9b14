import type { FlowPanel, LineChart } from "../sheet/content.ts";
import { checkValueOnAxis } from "./axis.ts";
import type { ChartEnv, Size } from "./chart-env.ts";
import { BASELINE, chartText, LINE, textWidth } from "./chart-text.ts";
import type { Drawing, DrawingItem } from "./drawing.ts";
import { type Box, bottom, boxPath, circlePath, linePath, type Point, polygonPath, right } from "./geometry.ts";
import { CAM_DASH, lineRows } from "./line-rows.ts";
import { panelMarker } from "./markers.ts";
import type { ToPoint } from "./obstacles.ts";
import { layOutPanelFrame, type PanelFrame } from "./panel-frame.ts";
import { panelNames, RING } from "./panel-names.ts";
import { RIBBON } from "./panel-room.ts";

/** Draws flow against lift in the grammar of a panel: grounds, lines, readings, the bar at the cam, names on the lines. */
export function drawFlowPanel(chart: FlowPanel, size: Size, env: ChartEnv): Drawing {
  for (const { name, points } of chart.series)
    for (const point of points) {
      checkValueOnAxis(chart.x, point.x, `a reading of "${name}"`);
      checkValueOnAxis(chart.y, point.y, `a reading of "${name}"`);
    }
  const frame = layOutPanelFrame(chart, size, env);
  const { plot, toPoint } = frame;
  const line: LineChart = { kind: "line", x: chart.x, y: chart.y, series: chart.series };
  const rows = lineRows(line, [], plot, env);
  const readings = chart.series.flatMap((series) =>
    series.points.map(({ x, y, kind }) => ({ x, y, ...panelMarker(series, kind, env.colors.paper) })),
  );
  const none = { grid: [], ticks: [], xNumbers: [], yNumbers: [], bases: [] };
  const { x, y } = chart;
  const shape = env.shapes.line(
    {
      rows: { ...none, ...rows, bases: [], readings },
      signals: { xStart: x.start, xEnd: x.end, yStart: y.start, yEnd: y.end, tickFrom: 0, tickSize: 0 },
    },
    plot,
    env.measure,
  );
  const cam = chart.cam ? camItems(chart.cam, chart, plot, toPoint, env) : undefined;
  const rings = (chart.rings ?? []).map(({ x, y }): DrawingItem => {
    const stroke = { color: env.colors.ink, width: 1.1 };
    return { kind: "path", role: "shape", d: circlePath(toPoint(x, y), RING), stroke };
  });
  const names = panelNames(chart, frame, env);
  const grounds = [
    ...groundItems(chart.zone, env.colors.zone, toPoint),
    ...(cam?.ground ?? []),
    ...groundItems(chart.gain, env.colors.tint, toPoint),
  ];
  const across = [...frame.grid, ...levelItems(chart, toPoint, env), ...(cam?.line ?? [])];
  return {
    ...size,
    items: [
      ...grounds,
      ...across,
      ...shape,
      ...rings,
      ...(cam?.bar ?? []),
      ...labelsOnZone(chart, frame, env),
      ...ribbonItems(chart, frame, env),
      ...names,
    ],
  };
}

/** Labels of the axes: ink where they stand on the zone, on which quiet type is too pale. */
function labelsOnZone({ zone = [] }: FlowPanel, { labels, toPoint }: PanelFrame, { colors }: ChartEnv) {
  return labels.map((label) => {
    const isOn = zone.some(({ x, low, high }) => toPoint(x, high)[1] < label.y && toPoint(x, low)[1] > label.y - LINE);
    return isOn ? { ...label, color: colors.ink } : label;
  });
}

/** White left and right of words in a stretch of the ribbon [pt]. */
const IN_RIBBON = 4;

/** The ribbon under the plot: each stretch with its words, or their short form where there is no room. */
function ribbonItems(
  { ribbon = [], y }: FlowPanel,
  { plot, toPoint }: PanelFrame,
  env: ChartEnv,
): readonly DrawingItem[] {
  const top = bottom(plot) + RIBBON.gap;
  const { accent, paper, ink, zone } = env.colors;
  const measure = textWidth(env.measure, "semibold");
  return ribbon.flatMap(({ from, to, text, short, look }): DrawingItem[] => {
    const [left, end] = [toPoint(from, y.start)[0], toPoint(to, y.start)[0]];
    const inset = look === "outline" ? 0.55 : 0;
    const d = boxPath({
      x: left + inset,
      y: top + inset,
      width: end - left - 2 * inset,
      height: RIBBON.height - 2 * inset,
    });
    const fill = { accent, outline: paper, zone }[look];
    const words = [text, short].find((one) => measure(one) + 2 * IN_RIBBON <= end - left);
    const style = {
      role: "label",
      color: look === "accent" ? paper : ink,
      weight: look === "zone" ? "regular" : "semibold",
    } as const;
    return [
      { kind: "path", role: "shape", d, fill, ...(look === "outline" ? { stroke: { color: ink, width: 1.1 } } : {}) },
      ...(words === undefined
        ? []
        : [
            chartText(
              words,
              (left + end) / 2,
              top + BASELINE + (RIBBON.height - LINE) / 2,
              "center",
              style,
              env.measure,
            ),
          ]),
    ];
  });
}

/** Dash of a line that marks a height [pt]. */
const LEVEL_DASH = [1.5, 2];

function levelItems({ x, levels = [] }: FlowPanel, toPoint: ToPoint, { colors }: ChartEnv): readonly DrawingItem[] {
  const stroke = { color: colors.ink, width: 0.75, dash: LEVEL_DASH };
  return levels.map((at) => ({
    kind: "path",
    role: "axis",
    d: linePath([toPoint(x.start, at), toPoint(x.end, at)]),
    stroke,
  }));
}

/** A ground between two lines, such as before and after. */
function groundItems(reach: FlowPanel["gain"] = [], fill: string, toPoint: ToPoint): readonly DrawingItem[] {
  if (reach.length < 2) return [];
  const up = reach.map(({ x, high }): Point => toPoint(x, high));
  const down = reach.map(({ x, low }): Point => toPoint(x, low)).reverse();
  return [{ kind: "path", role: "band", d: polygonPath([...up, ...down]), fill }];
}

/** The ground past the cam, the line at its lift, the bar from before to after. */
function camItems(
  { at, bar }: NonNullable<FlowPanel["cam"]>,
  { y }: FlowPanel,
  plot: Box,
  toPoint: ToPoint,
  { colors }: ChartEnv,
) {
  const [x] = toPoint(at, y.start);
  const past = boxPath({ x, y: plot.y, width: Math.max(0, right(plot) - x), height: plot.height });
  const ground: DrawingItem = { kind: "path", role: "shape", d: past, fill: colors.beyond };
  const upright = linePath([
    [x, plot.y],
    [x, bottom(plot)],
  ]);
  const stroke = { color: colors.ink, width: 0.75, dash: CAM_DASH };
  const line: DrawingItem = { kind: "path", role: "axis", d: upright, stroke };
  const reach: DrawingItem[] = bar
    ? [
        {
          kind: "path",
          role: "shape",
          d: linePath([toPoint(at, bar.from), toPoint(at, bar.to)]),
          stroke: { color: colors.ink, width: 2.25 },
        },
      ]
    : [];
  return { ground: [ground], line: [line], bar: reach };
}
