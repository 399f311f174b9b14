import type { BarChart } from "../sheet/content.ts";
import { axisRows } from "./axis-rows.ts";
import { barKey } from "./bar-key.ts";
import { LABEL_MODES, labelBoxes, labelReach, labelsClear, labelTexts } from "./bar-labels.ts";
import { barRows } from "./bar-rows.ts";
import { barSlots } from "./bar-slots.ts";
import type { ChartEnv, ChartOptions, Size } from "./chart-env.ts";
import { along, checkAxis, checkOnAxis } from "./check-axis.ts";
import type { Drawing } from "./drawing.ts";
import { bottom } from "./geometry.ts";
import { panel } from "./panel.ts";
import type { Box } from "./scenegraph.ts";
import { TICK } from "./shape-parts.ts";
import { bandNames, tickLabels } from "./tick-labels.ts";
import { LINE, widthIn } from "./type.ts";

/** Room at the sides for half of an outermost category's name that is wider than its bars [pt]. */
const SIDE = 4;

/** The largest share of a chart's height that is given to bars' labels. */
const MOST_LABELS = 0.3;

/** Draws bars from zero, by category and group. */
export function drawBarChart(chart: BarChart, size: Size, env: ChartEnv, options: ChartOptions): Drawing {
  const { x, y } = chart;
  checkBarChart(chart);
  const key = barKey(chart, size.width, env);
  const { panel: laidOut, slots, labels, mode } = layOut(chart, size, env, key.width, options);
  const { plot, titles, beside } = laidOut;
  const step = plot.width / Math.max(1, x.categories.length);
  const width = widthIn(env.measure);
  const middles = x.categories.map((_, i) => i + 0.5);
  const ticks = {
    x: { start: 0, end: Math.max(1, x.categories.length) },
    y,
    xTicks: middles,
    xLabels: bandNames(
      x.categories,
      middles.map((middle) => plot.x + middle * step),
      size.width,
      width,
    ),
    yLabels: tickLabels(y, plot.height, () => LINE),
  };
  const shape = env.shapes.bar(
    {
      // A bar stands in a band: its axis needs no ticks, and one of no length would be painted as a dot.
      rows: { ...axisRows(ticks, env), ticks: [], ...barRows(chart, slots, env) },
      signals: { xStart: 0, xEnd: ticks.x.end, yStart: y.start, yEnd: y.end, tickFrom: mode.below, tickSize: 0 },
    },
    plot,
    env.measure,
  );
  return {
    ...size,
    items: [...titles, ...key.items(beside.right, beside.y), ...shape, ...labelTexts(chart, labels, mode.kind, env)],
  };
}

/** Tries the labels level, then upright, then without them, each with the room it needs beyond the plot. */
function layOut(chart: BarChart, size: Size, env: ChartEnv, besideWidth: number, options: ChartOptions) {
  for (const kind of LABEL_MODES) {
    const reach = labelReach(chart, kind, env);
    const below = chart.bars.some(({ value, label }) => value < 0 && label) ? reach + TICK : TICK;
    if (kind !== "none" && reach + below > size.height * MOST_LABELS) continue;
    const right = Math.max(SIDE, options.labelRoom ?? 0);
    const laidOut = panel(size, env, {
      xTitle: chart.x.title,
      y: chart.y,
      besideWidth,
      above: reach,
      below,
      leftLeast: SIDE,
      right,
    });
    const { plot } = laidOut;
    const step = plot.width / Math.max(1, chart.x.categories.length);
    const slots = barSlots(chart, step);
    const toY = (value: number) => bottom(plot) - along(chart.y, value) * plot.height;
    const boxes = chart.bars.map(({ value }, i): Box => {
      const { from, to } = slots[i]!;
      return {
        x: plot.x + from * step,
        y: toY(Math.max(0, value)),
        width: (to - from) * step,
        height: Math.abs(toY(value) - toY(0)),
      };
    });
    const labels = labelBoxes(chart, kind, { boxes, toY }, env);
    if (kind === "none" || labelsClear(labels, boxes, size))
      return { panel: laidOut, slots, labels, mode: { kind, below } };
  }
  throw new Error("a bar chart without labels always fits");
}

/** Our own mistakes, caught before they are drawn: a bar cut off would lie. */
function checkBarChart({ y, bars }: BarChart): void {
  checkAxis(y);
  checkOnAxis(y, 0, "zero, where bars start,");
  for (const { category, value } of bars) checkOnAxis(y, value, `the bar of "${category}"`);
}
