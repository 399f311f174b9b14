import type { TopLevelSpec } from "vega-lite";

/** Signals that every shape reads, with defaults of no effect. */
const PARAMS: Readonly<Record<string, number>> = { xStart: 0, xEnd: 1, yStart: 0, yEnd: 1, tickFrom: 0, tickSize: 0 };

/** Size of chart text, length of a tick, gap between a tick and its number [pt]. */
export const TYPE_SIZE = 8.5;
export const TICK = 3;
export const TICK_GAP = 3;
/** Gap between the plot and the baseline of a second scale's numbers [pt]. */
export const TOP_GAP = 6.5;

/** Field with a row's index in its layer, the key by which a reused view matches its items. */
export const PLACE = "place";
/** Field with a path in points of the panel; one row for each point would dominate the cost of a chart. */
export const OUTLINE = "outline";

/** Values used from the row without a scale. */
export const nominalField = (field: string) => ({ field, type: "nominal", scale: null, legend: null });
export const numberField = (field: string) => ({ field, type: "quantitative", scale: null, legend: null });
export const positionField = (field: string) => ({ field, type: "quantitative", title: null });

/** A layer; the prefix of its name gives its role. */
export const markLayer = (name: string, data: string, mark: object, encoding: object) => ({
  name,
  data: { name: data },
  mark,
  encoding: { ...encoding, key: { field: PLACE, type: "nominal" } },
});

/** Position with a scale, for the first layer. Axes are drawn from rows, not by Vega. */
const scaledPosition = (name: "x" | "y", field: string) => ({
  field,
  type: "quantitative",
  scale: { domain: [{ expr: `${name}Start` }, { expr: `${name}End` }], nice: false, zero: false },
  axis: null,
});

const lineEncoding = {
  x: positionField("x"),
  y: positionField("y"),
  x2: { field: "x2" },
  y2: { field: "y2" },
  stroke: nominalField("color"),
};

/** Straight lines from (x, y) to (x2, y2). */
export const lineLayer = (name: string, data: string, mark: object, encoding: object = {}) =>
  markLayer(name, data, { type: "rule", ...mark }, { ...lineEncoding, ...encoding });

/** Text at (x, y). */
export const textLayer = (name: string, data: string, mark: object) =>
  markLayer(
    name,
    data,
    { type: "text", fontSize: TYPE_SIZE, limit: 0, ...mark },
    { x: positionField("x"), y: positionField("y"), text: nominalField("label"), fill: nominalField("color") },
  );

/** Half the width of an error bar's cap [pt]. */
const CAP = 2;

/** Error bars with caps. */
export const errorBarLayers = [
  lineLayer("error", "errors", { strokeWidth: 0.75 }),
  lineLayer("errorCap", "caps", { strokeWidth: 0.75, xOffset: -CAP, x2Offset: CAP }),
];

/** Grid lines, ticks, the numbers of both axes. */
export const axisLayers = [
  lineLayer("grid", "grid", { strokeWidth: 0.5 }, { x: scaledPosition("x", "x"), y: scaledPosition("y", "y") }),
  lineLayer("axisTick", "ticks", {
    strokeWidth: 0.5,
    yOffset: { expr: "tickFrom" },
    y2Offset: { expr: "tickFrom + tickSize" },
  }),
  textLayer("axisNumberX", "xNumbers", {
    align: "center",
    baseline: "top",
    yOffset: { expr: `tickFrom + tickSize + ${TICK_GAP}` },
  }),
  textLayer("axisNumberY", "yNumbers", { align: "right", baseline: "middle", xOffset: -TICK_GAP }),
];

/** The base line and other lines across the panel. */
export const baseLayer = lineLayer(
  "axisBase",
  "bases",
  {},
  { strokeWidth: numberField("width"), strokeDash: nominalField("dash") },
);

/** Vega-Lite spec of one kind of chart: layers and signals, without data, titles or sizes. */
export const shapeSpec = (layers: readonly object[]) =>
  ({
    autosize: "none",
    padding: 0,
    background: null,
    params: Object.entries(PARAMS).map(([name, value]) => ({ name, value })),
    config: {
      aria: false,
      view: { stroke: null, fill: null },
      // Invalid numbers are kept; the recorder throws on them.
      mark: { invalid: "show" },
      point: { opacity: 1 },
    },
    layer: layers,
  }) as unknown as TopLevelSpec;
