import type { Chart } from "../sheet/content.ts";
import type { ChartEnv, ChartOptions, Size } from "./chart-env.ts";
import { drawBarChart } from "./draw-bar-chart.ts";
import { drawLineChart } from "./draw-line-chart.ts";
import type { Drawing } from "./drawing.ts";

/** Draws a chart into a drawing of exactly this size, with its axes, titles and labels inside. Pure. */
export function drawChart(chart: Chart, size: Size, env: ChartEnv, options: ChartOptions = {}): Drawing {
  return chart.kind === "line" ? drawLineChart(chart, size, env, options) : drawBarChart(chart, size, env, options);
}
