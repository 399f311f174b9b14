import type { Sheet } from "../sheet/content.ts";
import type { Measure } from "../text/measure.ts";
import type { Shapes } from "./scenegraph.ts";

/** Dependencies of chart drawing: text measure, colours, compiled shapes. */
export type ChartEnv = {
  readonly measure: Measure;
  readonly colors: Sheet["theme"]["colors"];
  readonly shapes: Shapes;
};

/** Outer size of a drawing [pt], axes, titles and line-end labels included. */
export type Size = { readonly width: number; readonly height: number };

/** Least size of a chart [pt]; below it titles and labels leave no room for a plot. */
export const MIN_CHART: Size = { width: 110, height: 110 };
/** Height that a chart without a second scale saves [pt]. */
export const SECOND_SCALE = 18;

export type ChartOptions = {
  /** Room right of the panel for line-end labels [pt], equal for panels side by side; see `endLabelRoom`. */
  readonly labelRoom?: number;
};
