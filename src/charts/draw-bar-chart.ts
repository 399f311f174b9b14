import type { BarChart } from "../sheet/content.ts";
import { axisRows, axisShare, checkAxis, checkValueOnAxis } from "./axis.ts";
import { barKey } from "./bar-key.ts";
import { areLabelsClear, LABEL_MODES, labelBoxes, labelReach, labelTexts } from "./bar-labels.ts";
import { barRows, barSlots } from "./bar-rows.ts";
import type { ChartEnv, ChartOptions, Size } from "./chart-env.ts";
import { LINE, textWidth } from "./chart-text.ts";
import type { Drawing } from "./drawing.ts";
import { type Box, bottom } from "./geometry.ts";
import { layOutPanel } from "./panel.ts";
import { TICK } from "./shape-parts.ts";
import { categoryLabels, tickLabels } from "./tick-labels.ts";

/** Room at the sides for an outermost category name wider than its bars [pt]. */
const SIDE = 4;

/** Largest share of a chart's height for bar labels. */
const MOST_LABELS = 0.3;

/** Draws bars from zero, by category and group. */
export function drawBarChart(chart: BarChart, size: Size, env: ChartEnv, options: ChartOptions): Drawing {
  const { x, y } = chart;
  checkBarChart(chart);
  const key = barKey(chart, size.width, env);
  const { panel: laidOut, slots, labels, mode } = layOutBars(chart, size, env, key.width, options);
  const { plot, titles, beside } = laidOut;
  const step = plot.width / Math.max(1, x.categories.length);
  const width = textWidth(env.measure);
  const middles = x.categories.map((_, i) => i + 0.5);
  const ticks = {
    x: { start: 0, end: Math.max(1, x.categories.length) },
    y,
    xTicks: middles,
    xLabels: categoryLabels(
      x.categories,
      middles.map((middle) => plot.x + middle * step),
      size.width,
      width,
    ),
    yLabels: tickLabels(y, plot.height, () => LINE),
  };
  const shape = env.shapes.bar(
    {
      // A band axis needs no ticks, and a tick of length 0 would be painted as a dot.
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

/** Tries level labels, then upright ones, then none, each with the room it needs beyond the plot. */
function layOutBars(chart: BarChart, size: Size, env: ChartEnv, besideWidth: number, options: ChartOptions) {
  for (const kind of LABEL_MODES) {
    const reach = labelReach(chart, kind, env);
    const below = chart.bars.some(({ value, label }) => value < 0 && label) ? reach + TICK : TICK;
    if (kind !== "none" && reach + below > size.height * MOST_LABELS) continue;
    const right = Math.max(SIDE, options.labelRoom ?? 0);
    const laidOut = layOutPanel(size, env, {
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
    const toY = (value: number) => bottom(plot) - axisShare(chart.y, value) * plot.height;
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
    if (kind === "none" || areLabelsClear(labels, boxes, size))
      return { panel: laidOut, slots, labels, mode: { kind, below } };
  }
  throw new Error("a bar chart without labels always fits");
}

/** Throws if a bar would be cut off, which would mislead. */
function checkBarChart({ y, bars }: BarChart): void {
  checkAxis(y);
  checkValueOnAxis(y, 0, "zero, where bars start,");
  for (const { category, value } of bars) checkValueOnAxis(y, value, `the bar of "${category}"`);
}
