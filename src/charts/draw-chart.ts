import type { Chart } from "../sheet/content.ts";
import type { ChartEnv, ChartOptions, Size } from "./chart-env.ts";
import { drawBarChart } from "./draw-bar-chart.ts";
import { drawLineChart } from "./draw-line-chart.ts";
import type { Drawing } from "./drawing.ts";

/** Draws a chart into a drawing of exactly this size, with its axes, titles and labels inside. Pure. */
export function drawChart(chart: Chart, size: Size, env: ChartEnv, options: ChartOptions = {}): Drawing {
  return chart.kind === "line" ? drawLineChart(chart, size, env, options) : drawBarChart(chart, size, env, options);
}

type Draw = (chart: Chart, size: Size, options?: ChartOptions) => Drawing;

/** Draws a chart of one size once: a page that is set again and again until it fits asks for the same drawings. */
export function cachedDraw(draw: Draw): Draw {
  const drawn = new WeakMap<Chart, Map<string, Drawing>>();
  return (chart, size, options = {}) => {
    const sizes = drawn.get(chart) ?? new Map<string, Drawing>();
    drawn.set(chart, sizes);
    const key = JSON.stringify([size.width, size.height, options.labelRoom]);
    const drawing = sizes.get(key) ?? draw(chart, size, options);
    sizes.set(key, drawing);
    return drawing;
  };
}
