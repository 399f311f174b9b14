import type { TopLevelSpec } from "vega-lite";
import { at, axisLayers, baseLayer, errorLayers, layer, lines, nominal, plain, shapeOf } from "./shape-parts.ts";

/** Bars from zero; each row brings its own two edges on a line that counts categories. */
export const barShape = (): TopLevelSpec =>
  shapeOf([
    ...axisLayers,
    layer(
      "bar",
      "bars",
      { type: "rect" },
      {
        x: at("from"),
        x2: { field: "to" },
        y: at("zero"),
        y2: { field: "value" },
        fill: nominal("fill"),
        stroke: nominal("color"),
        strokeWidth: plain("width"),
      },
    ),
    baseLayer,
    // Keeps the error bar visible where it lies on a dark bar.
    lines("shapeHalo", "halos", { strokeWidth: 2.75 }),
    ...errorLayers,
  ]);
