import type { ChartRow, FlowPanel } from "../content.ts";
import type { Placement } from "../context.ts";
import { LABELS } from "./flow-panels.ts";

/** Heights of a plot against engine speed [pt]. */
const PLOT = { least: 90, most: 112 } as const;

/** A panel against engine speed, under the heading of its block. */
export const speedChart = (place: Placement, chart: FlowPanel, alt: string, caption: string): ChartRow => ({
  kind: "charts",
  charts: [{ title: "", chart, alt }],
  height: place.cell.height ?? PLOT.least + LABELS,
  ...(place.cell.height === undefined ? { grow: [PLOT.least + LABELS, PLOT.most + LABELS] } : {}),
  caption,
});
