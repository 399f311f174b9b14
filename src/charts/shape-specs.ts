import type { TopLevelSpec } from "vega-lite";
import {
  axisLayers,
  baseLayer,
  errorBarLayers,
  lineLayer,
  markLayer,
  nominalField,
  numberField,
  OUTLINE,
  positionField,
  shapeSpec,
  TICK,
  TOP_GAP,
  textLayer,
} from "./shape-parts.ts";

const atOrigin = { x: { value: 0 }, y: { value: 0 } };

/** Readings and curves over a numeric axis, with an optional second scale along the top. */
export const lineShapeSpec = (): TopLevelSpec =>
  shapeSpec([
    ...axisLayers,
    markLayer(
      "band",
      "bands",
      { type: "point", filled: true, fillOpacity: 0.16 },
      { ...atOrigin, shape: nominalField(OUTLINE), fill: nominalField("color") },
    ),
    baseLayer,
    lineLayer("axisTopTick", "topTicks", { strokeWidth: 0.5, y2Offset: -TICK }),
    textLayer("axisTopLabel", "tops", { baseline: "alphabetic", align: "center", dy: -TOP_GAP }),
    markLayer(
      "curve",
      "curves",
      { type: "point", filled: false, strokeJoin: "round" },
      {
        ...atOrigin,
        shape: nominalField(OUTLINE),
        stroke: nominalField("color"),
        strokeWidth: numberField("width"),
        strokeDash: nominalField("dash"),
      },
    ),
    ...errorBarLayers,
    markLayer(
      "reading",
      "readings",
      { type: "point" },
      {
        x: positionField("x"),
        y: positionField("y"),
        shape: nominalField("shape"),
        size: numberField("size"),
        fill: nominalField("fill"),
        stroke: nominalField("color"),
        strokeWidth: numberField("width"),
      },
    ),
    markLayer(
      "shapeFlag",
      "flags",
      { type: "point", filled: false, strokeWidth: 0.75 },
      {
        x: positionField("x"),
        y: positionField("y"),
        shape: nominalField("shape"),
        size: numberField("size"),
        stroke: nominalField("color"),
      },
    ),
  ]);

/** Bars from zero; each row has its own two edges on the category axis. */
export const barShapeSpec = (): TopLevelSpec =>
  shapeSpec([
    ...axisLayers,
    markLayer(
      "bar",
      "bars",
      { type: "rect" },
      {
        x: positionField("from"),
        x2: { field: "to" },
        y: positionField("zero"),
        y2: { field: "value" },
        fill: nominalField("fill"),
        stroke: nominalField("color"),
        strokeWidth: numberField("width"),
      },
    ),
    baseLayer,
    // Keeps the error bar visible where it lies on a dark bar.
    lineLayer("shapeHalo", "halos", { strokeWidth: 2.75 }),
    ...errorBarLayers,
  ]);
