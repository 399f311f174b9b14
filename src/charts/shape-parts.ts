import type { TopLevelSpec } from "vega-lite";

/** Names of what fills every shape from outside; their values are neutral until then. */
const PARAMS: Readonly<Record<string, number>> = { xStart: 0, xEnd: 1, yStart: 0, yEnd: 1, tickFrom: 0, tickSize: 0 };

/** Size of all chart text, length of a tick, from a tick to its number [pt]. */
export const TYPE_SIZE = 8.5;
export const TICK = 3;
export const TICK_GAP = 3;
/** From the plot's upper edge to the baseline of a second scale's numbers [pt]. */
export const TOP_GAP = 6.5;

/** The field that holds a row's place in its layer: a view filled again uses the items that it has, place by place. */
export const PLACE = "place";
/** The field that holds a path whose points are placed already: a row for each point would cost more than all the rest. */
export const OUTLINE = "outline";

/** A value that rides in the data row as it is: no scale between the row and the mark. */
export const nominal = (field: string) => ({ field, type: "nominal", scale: null, legend: null });
export const plain = (field: string) => ({ field, type: "quantitative", scale: null, legend: null });
export const at = (field: string) => ({ field, type: "quantitative", title: null });

/** A layer: its name, whose start says what it draws, the rows that fill it, its look. */
export const layer = (name: string, data: string, mark: object, encoding: object) => ({
  name,
  data: { name: data },
  mark,
  encoding: { ...encoding, key: { field: PLACE, type: "nominal" } },
});

/** A position that the scales belong to: the first layer's. Axes are rows like the rest, so Vega makes none. */
const scaled = (name: "x" | "y", field: string) => ({
  field,
  type: "quantitative",
  scale: { domain: [{ expr: `${name}Start` }, { expr: `${name}End` }], nice: false, zero: false },
  axis: null,
});

const line = { x: at("x"), y: at("y"), x2: { field: "x2" }, y2: { field: "y2" }, stroke: nominal("color") };

/** Straight lines from (x, y) to (x2, y2). */
export const lines = (name: string, data: string, mark: object, encoding: object = {}) =>
  layer(name, data, { type: "rule", ...mark }, { ...line, ...encoding });

/** Words at (x, y). */
export const words = (name: string, data: string, mark: object) =>
  layer(
    name,
    data,
    { type: "text", fontSize: TYPE_SIZE, limit: 0, ...mark },
    { x: at("x"), y: at("y"), text: nominal("label"), fill: nominal("color") },
  );

/** Half the width of the bar across each end of an error bar [pt]. */
const CAP = 2;

/** Error bars with caps; a cap is left out where the axis cuts the bar. */
export const errorLayers = [
  lines("error", "errors", { strokeWidth: 0.75 }),
  lines("errorCap", "caps", { strokeWidth: 0.75, xOffset: -CAP, x2Offset: CAP }),
];

/** Lines across the panel, ticks below it, the numbers of both axes. */
export const axisLayers = [
  lines("grid", "grid", { strokeWidth: 0.5 }, { x: scaled("x", "x"), y: scaled("y", "y") }),
  lines("axisTick", "ticks", {
    strokeWidth: 0.5,
    yOffset: { expr: "tickFrom" },
    y2Offset: { expr: "tickFrom + tickSize" },
  }),
  words("axisNumberX", "xNumbers", {
    align: "center",
    baseline: "top",
    yOffset: { expr: `tickFrom + tickSize + ${TICK_GAP}` },
  }),
  words("axisNumberY", "yNumbers", { align: "right", baseline: "middle", xOffset: -TICK_GAP }),
];

/** The line the data stand on, the bottom of the panel or zero, and what else lies across the panel. */
export const baseLayer = lines("axisBase", "bases", {}, { strokeWidth: plain("width"), strokeDash: nominal("dash") });

/** A shape: layers and parameters, without data, titles or sizes. */
export const shapeOf = (layers: readonly object[]) =>
  ({
    autosize: "none",
    padding: 0,
    background: null,
    params: Object.entries(PARAMS).map(([name, value]) => ({ name, value })),
    config: {
      aria: false,
      view: { stroke: null, fill: null },
      // A row that is no number is a fault, and found when it is drawn.
      mark: { invalid: "show" },
      point: { opacity: 1 },
    },
    layer: layers,
  }) as unknown as TopLevelSpec;
