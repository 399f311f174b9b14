import type { TopLevelSpec } from "vega-lite";
import {
  at,
  axisLayers,
  baseLayer,
  errorLayers,
  layer,
  lines,
  nominal,
  OUTLINE,
  plain,
  shapeOf,
  TICK,
  TOP_GAP,
  words,
} from "./shape-parts.ts";

const atOrigin = { x: { value: 0 }, y: { value: 0 } };

/** Readings and curves over a numeric axis, with an optional second scale along the top. */
export const lineShape = (): TopLevelSpec =>
  shapeOf([
    ...axisLayers,
    layer(
      "band",
      "bands",
      { type: "point", filled: true, fillOpacity: 0.16 },
      { ...atOrigin, shape: nominal(OUTLINE), fill: nominal("color") },
    ),
    baseLayer,
    lines("axisTopTick", "topTicks", { strokeWidth: 0.5, y2Offset: -TICK }),
    words("axisTopLabel", "tops", { baseline: "alphabetic", align: "center", dy: -TOP_GAP }),
    layer(
      "curve",
      "curves",
      { type: "point", filled: false, strokeJoin: "round" },
      {
        ...atOrigin,
        shape: nominal(OUTLINE),
        stroke: nominal("color"),
        strokeWidth: plain("width"),
        strokeDash: nominal("dash"),
      },
    ),
    ...errorLayers,
    layer(
      "reading",
      "readings",
      { type: "point" },
      {
        x: at("x"),
        y: at("y"),
        shape: nominal("shape"),
        size: plain("size"),
        fill: nominal("fill"),
        stroke: nominal("color"),
        strokeWidth: plain("width"),
      },
    ),
    layer(
      "shapeFlag",
      "flags",
      { type: "point", filled: false, strokeWidth: 0.75 },
      { x: at("x"), y: at("y"), shape: nominal("shape"), size: plain("size"), stroke: nominal("color") },
    ),
  ]);
