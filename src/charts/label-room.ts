import type { Chart } from "../sheet/content.ts";
import type { Measure } from "../text/measure.ts";
import { END_GAP, fitEnd, lineEnds } from "./line-ends.ts";

/** Room that a chart of this width keeps right of its panel for line-end labels [pt]; panels side by side share the most. */
export function labelRoomOf(chart: Chart, measure: Measure, chartWidth: number): number {
  if (chart.kind === "bar") return 0;
  const widths = lineEnds(chart).map(({ text }) => fitEnd(text, chartWidth, measure).width);
  return widths.length === 0 ? 0 : END_GAP + Math.max(...widths);
}
