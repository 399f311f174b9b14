import type { LineChart } from "../sheet/content.ts";
import { axisRows, axisShare, checkAxis, checkValueOnAxis } from "./axis.ts";
import type { ChartEnv, ChartOptions, Size } from "./chart-env.ts";
import { chartText, fitText, LINE, textWidth } from "./chart-text.ts";
import type { Drawing } from "./drawing.ts";
import { bottom } from "./geometry.ts";
import { endLabelRoom } from "./line-ends.ts";
import { lineLabels } from "./line-labels.ts";
import { lineRows } from "./line-rows.ts";
import { MARKER_REACH } from "./markers.ts";
import type { ToPoint } from "./obstacles.ts";
import { layOutPanel } from "./panel.ts";
import { TICK, TOP_GAP, TYPE_SIZE } from "./shape-parts.ts";
import { formatTick, thinLabels, tickLabels } from "./tick-labels.ts";

/** Draws readings, their curves and labels. */
export function drawLineChart(chart: LineChart, size: Size, env: ChartEnv, options: ChartOptions): Drawing {
  const { x, y, top } = chart;
  const { measure, colors, shapes } = env;
  checkLineChart(chart);
  const width = textWidth(measure);
  const outermost = [x.ticks.at(0), x.ticks.at(-1)].map((tick) =>
    tick === undefined ? 0 : width(formatTick(tick, x.decimals)) / 2,
  );
  const topmost = [top?.ticks.at(0), top?.ticks.at(-1)].map((tick) => (tick ? width(tick.label) / 2 : 0));
  const side = (i: number) => Math.max(MARKER_REACH, outermost[i]!, topmost[i]!);
  const topTitle = top ? fitText(top.title, size.width, 1, width).lines[0]! : "";
  const { plot, titles, beside } = layOutPanel(size, env, {
    xTitle: x.title,
    y,
    besideWidth: topTitle ? width(topTitle) : 0,
    above: top ? TOP_GAP + TYPE_SIZE : 0,
    below: TICK,
    leftLeast: side(0),
    right: Math.max(side(1), options.labelRoom ?? endLabelRoom(chart, measure, size.width)),
  });
  const toPoint: ToPoint = (px, py) => [
    plot.x + axisShare(x, px) * plot.width,
    bottom(plot) - axisShare(y, py) * plot.height,
  ];
  const topLabels = top
    ? thinLabels(
        top.ticks.map(({ label }) => label),
        top.ticks.map(({ at }) => toPoint(at, y.start)[0]),
        width,
      )
    : [];

  const ticks = {
    x,
    y,
    xTicks: x.ticks,
    xLabels: tickLabels(x, plot.width, width),
    yLabels: tickLabels(y, plot.height, () => LINE),
  };
  const shape = shapes.line(
    {
      rows: { ...axisRows(ticks, env), ...lineRows(chart, topLabels, plot, env) },
      signals: { xStart: x.start, xEnd: x.end, yStart: y.start, yEnd: y.end, tickFrom: 0, tickSize: TICK },
    },
    plot,
    measure,
  );
  const look = { role: "axis", color: colors.quiet } as const;
  const topTitles = topTitle === "" ? [] : [chartText(topTitle, beside.right, beside.y, "right", look, measure)];
  return { ...size, items: [...titles, ...topTitles, ...shape, ...lineLabels(chart, plot, toPoint, size.width, env)] };
}

/** Throws if a reading lies outside its axes, where it would be hidden. */
function checkLineChart({ x, y, top, series }: LineChart): void {
  checkAxis(x);
  checkAxis(y);
  for (const { at } of top?.ticks ?? []) checkValueOnAxis(x, at, "a tick of the top scale");
  for (const { name, points } of series) {
    for (const point of points) {
      checkValueOnAxis(x, point.x, `a reading of "${name}"`);
      checkValueOnAxis(y, point.y, `a reading of "${name}"`);
    }
  }
}
