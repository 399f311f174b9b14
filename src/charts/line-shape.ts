import type { TopLevelSpec } from "vega-lite";
import { at, baseLayer, errorLayers, nominal, plain, shapeOf, TICK, TOP_GAP, TYPE_SIZE } from "./shape-parts.ts";

/** Readings and curves over a numeric axis, with an optional second scale along the top. */
export const lineShape = (): TopLevelSpec =>
  shapeOf([
    {
      name: "band",
      data: { name: "bands" },
      mark: { type: "area", interpolate: "linear", opacity: 1, fillOpacity: 0.16 },
      encoding: {
        x: at("x"),
        y: at("low"),
        y2: { field: "high" },
        detail: { field: "band", type: "nominal" },
        fill: nominal("color"),
      },
    },
    baseLayer,
    {
      name: "axisMarkX",
      data: { name: "xMarks" },
      mark: { type: "rule", strokeWidth: 0.75, strokeDash: [6, 2, 1, 2] },
      encoding: { x: at("at"), stroke: nominal("color") },
    },
    {
      name: "axisMarkY",
      data: { name: "yMarks" },
      mark: { type: "rule", strokeWidth: 0.75, strokeDash: [6, 2, 1, 2] },
      encoding: { y: at("at"), stroke: nominal("color") },
    },
    {
      name: "axisTopTick",
      data: { name: "tops" },
      mark: { type: "rule", strokeWidth: 0.5 },
      encoding: { x: at("at"), y: { value: 0 }, y2: { value: -TICK }, stroke: nominal("color") },
    },
    {
      name: "axisTopLabel",
      data: { name: "tops" },
      mark: { type: "text", fontSize: TYPE_SIZE, baseline: "alphabetic", align: "center", dy: -TOP_GAP, limit: 0 },
      encoding: { x: at("at"), y: { value: 0 }, text: { field: "label", type: "nominal" }, fill: nominal("color") },
    },
    {
      name: "curve",
      data: { name: "curves" },
      mark: { type: "line", interpolate: "linear", strokeJoin: "round" },
      encoding: {
        x: at("x"),
        y: at("y"),
        detail: { field: "line", type: "nominal" },
        stroke: nominal("color"),
        strokeWidth: plain("width"),
        strokeDash: nominal("dash"),
      },
    },
    ...errorLayers(0.75),
    {
      name: "reading",
      data: { name: "readings" },
      mark: { type: "point" },
      encoding: {
        x: at("x"),
        y: at("y"),
        shape: nominal("shape"),
        size: plain("size"),
        fill: nominal("fill"),
        stroke: nominal("color"),
        strokeWidth: plain("width"),
      },
    },
    {
      name: "shapeFlag",
      data: { name: "flags" },
      mark: { type: "point", filled: false, strokeWidth: 0.75 },
      encoding: { x: at("x"), y: at("y"), shape: nominal("shape"), size: plain("size"), stroke: nominal("color") },
    },
  ]);
