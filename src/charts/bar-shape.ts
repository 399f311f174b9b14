import type { TopLevelSpec } from "vega-lite";
import { at, baseLayer, errorLayers, nominal, plain, shapeOf } from "./shape-parts.ts";

/** Bars from zero; each row brings its own two edges on a line that counts categories. */
export const barShape = (): TopLevelSpec =>
  shapeOf([
    {
      name: "bar",
      data: { name: "bars" },
      mark: { type: "rect" },
      encoding: {
        x: at("from"),
        x2: { field: "to" },
        y: at("zero"),
        y2: { field: "value" },
        fill: nominal("fill"),
        stroke: nominal("color"),
        strokeWidth: plain("width"),
      },
    },
    baseLayer,
    {
      // Keeps the error bar visible where it lies on a dark bar.
      name: "shapeHalo",
      data: { name: "halos" },
      mark: { type: "rule", strokeWidth: 2.75 },
      encoding: { x: at("x"), y: at("low"), y2: { field: "high" }, stroke: nominal("color") },
    },
    ...errorLayers(0.75),
  ]);
