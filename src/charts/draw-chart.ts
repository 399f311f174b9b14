import type { Chart } from "../sheet/content.ts";
import type { ChartEnv, ChartOptions, Size } from "./chart-env.ts";
import { drawBarChart } from "./draw-bar-chart.ts";
import { drawDotStrip } from "./draw-dot-strip.ts";
import { drawFlowPanel } from "./draw-flow-panel.ts";
import { drawLineChart } from "./draw-line-chart.ts";
import { drawSpread } from "./draw-spread.ts";
import type { Drawing } from "./drawing.ts";

/** Draws a chart, axes, titles and labels included, in exactly this size. Pure. */
export function drawChart(chart: Chart, size: Size, env: ChartEnv, options: ChartOptions = {}): Drawing {
  switch (chart.kind) {
    case "line":
      return drawLineChart(chart, size, env, options);
    case "bar":
      return drawBarChart(chart, size, env, options);
    case "flow-panel":
      return drawFlowPanel(chart, size, env);
    case "spread":
      return drawSpread(chart, size, env);
    case "dot-strip":
      return drawDotStrip(chart, size, env);
  }
}

type Draw = (chart: Chart, size: Size, options?: ChartOptions) => Drawing;

/** Caches drawings by chart and size: layout repeats them while it fits a page. */
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
