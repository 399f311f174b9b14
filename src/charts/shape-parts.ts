import type { TopLevelSpec } from "vega-lite";

/** Names of what fills every shape from outside; their values are neutral until then. */
const PARAMS: Readonly<Record<string, unknown>> = {
  xStart: 0,
  xEnd: 1,
  yStart: 0,
  yEnd: 1,
  xTicks: [],
  xLabels: [],
  yTicks: [],
  yLabels: [],
  xTickSize: 0,
  xOffset: 0,
  quiet: "#000000",
  grid: "#000000",
};

/** Size of all chart text, length of a tick, from a tick to its number [pt]. */
export const TYPE_SIZE = 8.5;
export const TICK = 3;
export const TICK_GAP = 3;
/** From the plot's upper edge to the baseline of a second scale's numbers [pt]. */
export const TOP_GAP = 6.5;

/** Text reaches the axis as data and is looked up, so no words of a job ever become an expression. */
const axis = (name: "x" | "y") => ({
  values: { expr: `${name}Ticks` },
  // Without it Vega thins out the values it is given.
  tickCount: { expr: `length(${name}Ticks)` },
  labelExpr: `${name}Labels[indexof(${name}Ticks, datum.value)]`,
  title: null,
  domain: false,
  translate: 0,
  tickRound: false,
  labelFlush: false,
  labelOverlap: false,
  labelBound: false,
  labelLimit: 0,
  labelAngle: 0,
  labelPadding: TICK_GAP,
  labelFontSize: TYPE_SIZE,
  labelColor: { expr: "quiet" },
});

/** A position that scales and axes belong to: the first layer's. */
export const xAxis = (field: string) => ({
  field,
  type: "quantitative",
  scale: { domain: [{ expr: "xStart" }, { expr: "xEnd" }], nice: false, zero: false },
  axis: {
    ...axis("x"),
    grid: false,
    offset: { expr: "xOffset" },
    tickSize: { expr: "xTickSize" },
    tickWidth: 0.5,
    tickColor: { expr: "quiet" },
  },
});
export const yAxis = (field: string) => ({
  field,
  type: "quantitative",
  scale: { domain: [{ expr: "yStart" }, { expr: "yEnd" }], nice: false, zero: false },
  axis: { ...axis("y"), ticks: false, grid: true, gridWidth: 0.5, gridColor: { expr: "grid" } },
});

/** A value that rides in the data row as it is: no scale between the row and the mark. */
export const nominal = (field: string) => ({ field, type: "nominal", scale: null, legend: null });
export const plain = (field: string) => ({ field, type: "quantitative", scale: null, legend: null });
export const at = (field: string) => ({ field, type: "quantitative", title: null });

/** Half the width of the bar across each end of an error bar [pt]. */
const CAP = 2;

/** Error bars with caps; a cap is left out where the axis cuts the bar. */
export const errorLayers = (width: number) => [
  {
    name: "error",
    data: { name: "errors" },
    mark: { type: "rule", strokeWidth: width },
    encoding: { x: at("x"), y: at("low"), y2: { field: "high" }, stroke: nominal("color") },
  },
  {
    name: "errorCap",
    data: { name: "caps" },
    mark: { type: "rule", strokeWidth: width, xOffset: -CAP, x2Offset: CAP },
    encoding: { x: at("x"), x2: { field: "x" }, y: at("y"), stroke: nominal("color") },
  },
];

/** The line the data stand on: the bottom of the panel, or zero. It carries the axes. */
export const baseLayer = {
  name: "axisBase",
  data: { name: "bases" },
  mark: { type: "rule", strokeWidth: 0.75 },
  encoding: { x: xAxis("from"), x2: { field: "to" }, y: yAxis("at"), stroke: nominal("color") },
};

/** A shape: layers and parameters, without data, titles or sizes. */
export const shapeOf = (layer: readonly object[]) =>
  ({
    autosize: "none",
    padding: 0,
    background: null,
    params: Object.entries(PARAMS).map(([name, value]) => ({ name, value })),
    config: { aria: false, view: { stroke: null, fill: null }, point: { opacity: 1 }, line: { opacity: 1 } },
    layer,
  }) as unknown as TopLevelSpec;
