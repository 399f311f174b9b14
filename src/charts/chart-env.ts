import type { Sheet } from "../sheet/content.ts";
import type { Measure } from "../text/measure.ts";
import type { Shapes } from "./scenegraph.ts";

/** What charts are drawn with: the font's measure, the brand's colours, the opened shapes. */
export type ChartEnv = {
  readonly measure: Measure;
  readonly colors: Sheet["theme"]["colors"];
  readonly shapes: Shapes;
};

/** Outer size of a drawing [pt]: axes, titles and line-end labels are inside. */
export type Size = { readonly width: number; readonly height: number };

/** In less, titles, numbers and the names of lines leave no room for a plot [pt]. */
export const LEAST_CHART: Size = { width: 110, height: 110 };
/** What a chart without a second scale along its top can do with less [pt]. */
export const SECOND_SCALE = 18;

export type ChartOptions = {
  /** Room kept right of the panel for line-end labels [pt], so that panels side by side are equal; see `labelRoomOf`. */
  readonly labelRoom?: number;
};
