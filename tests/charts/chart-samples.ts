import type { ChartEnv } from "../../src/charts/chart-env.ts";
import { compileShapes } from "../../src/charts/compile-shapes.ts";
import type { Drawing, DrawingItem, DrawingRole, PathItem, TextItem } from "../../src/charts/drawing.ts";
import { openShapes } from "../../src/charts/scenegraph.ts";
import type { BarChart, LineChart, Series } from "../../src/sheet/content.ts";
import { makeTheme } from "../../src/theme/make-theme.ts";

/** Half an em a letter: no font file is needed to know where things stand. */
const measure: ChartEnv["measure"] = {
  width: (text, _weight, size) => [...text].length * size * 0.5,
  missing: () => [],
  capHeight: 0.7,
  xHeight: 0.5,
  ascent: 1,
  descent: 0.275,
};

const runtimes = compileShapes();
/** Shapes that have drawn nothing yet. */
export const freshShapes = () => openShapes(structuredClone(runtimes));

export const env: ChartEnv = {
  measure,
  shapes: freshShapes(),
  colors: {
    ...makeTheme({}).theme.colors,
    ink: "#1a1a1a",
    quiet: "#4d4d4d",
    rule: "#8c8c8c",
    grid: "#d9d9d9",
    accent: "#1f4e5f",
    paper: "#ffffff",
  },
};

export const size = { width: 240, height: 190 };

export const before: Series["style"] = {
  color: "#6b6b6b",
  label: "#1a1a1a",
  width: 1,
  dash: [5, 2.5],
  marker: "circle",
  filled: false,
};
export const after: Series["style"] = {
  color: "#1f4e5f",
  label: "#1f4e5f",
  width: 1.75,
  dash: [],
  marker: "circle",
  filled: true,
};

const asReceived: readonly (readonly [number, number])[] = [
  [2, 61.3],
  [4, 118.7],
  [6, 158.2],
  [8, 181.9],
  [10, 192.4],
];
const finished: readonly (readonly [number, number])[] = [
  [2, 66.1],
  [4, 129.5],
  [6, 176.8],
  [8, 209.3],
  [10, 223.6],
];
const points = (readings: typeof asReceived) => readings.map(([x, y]) => ({ x, y, kind: "good" as const }));

export const flowChart: LineChart = {
  kind: "line",
  x: { title: "Valve lift (mm)", start: 0, end: 10, ticks: [0, 2, 4, 6, 8, 10], decimals: 0 },
  y: { title: "Flow (cfm)", start: 0, end: 250, ticks: [0, 50, 100, 150, 200, 250], decimals: 0 },
  series: [
    {
      name: "As received",
      label: "As received",
      style: before,
      curve: [[0, 0], ...asReceived],
      points: points(asReceived),
    },
    { name: "Finished", label: "Finished", style: after, curve: [[0, 0], ...finished], points: points(finished) },
  ],
};

export const changeChart: BarChart = {
  kind: "bar",
  x: { title: "Valve lift (mm)", categories: ["2", "4", "6", "8"] },
  y: { title: "Change (%)", start: -5, end: 15, ticks: [-5, 0, 5, 10, 15], decimals: 0 },
  groups: [],
  bars: [-3, 2, 8, 11].map((value, i) => ({
    category: String(2 * (i + 1)),
    value,
    color: "#1f4e5f",
    hollow: Math.abs(value) < 4,
    plusMinus: 1.5,
    label: `${value < 0 ? "−" : "+"}${Math.abs(value)}.0`,
  })),
};

export type Bounds = { readonly x1: number; readonly y1: number; readonly x2: number; readonly y2: number };

/** Corners of an item, line widths left out; text as high as its capitals. */
export function boundsOf(item: DrawingItem): Bounds {
  const corners =
    item.kind === "path" ? item.d.flatMap((command) => pairs(command.slice(1) as number[])) : textCorners(item);
  const [xs, ys] = [corners.map(([x]) => x), corners.map(([, y]) => y)];
  return { x1: Math.min(...xs), y1: Math.min(...ys), x2: Math.max(...xs), y2: Math.max(...ys) };
}

const pairs = (flat: readonly number[]) =>
  Array.from({ length: flat.length / 2 }, (_, i) => [flat[2 * i]!, flat[2 * i + 1]!] as const);

function textCorners({ text, x, y, size, weight, angle }: TextItem) {
  const [width, up] = [measure.width(text, weight, size), size * measure.capHeight];
  const box = [
    [0, 0],
    [width, 0],
    [0, -up],
    [width, -up],
  ] as const;
  return angle === -90
    ? box.map(([dx, dy]) => [x + dy, y - dx] as const)
    : box.map(([dx, dy]) => [x + dx, y + dy] as const);
}

export const middleOf = (item: DrawingItem) => {
  const { x1, y1, x2, y2 } = boundsOf(item);
  return [(x1 + x2) / 2, (y1 + y2) / 2] as const;
};

export const pathsOf = (drawing: Drawing, role: DrawingRole) =>
  drawing.items.filter((item): item is PathItem => item.kind === "path" && item.role === role);
export const textsOf = (drawing: Drawing) => drawing.items.filter((item): item is TextItem => item.kind === "text");
export const words = (drawing: Drawing) => textsOf(drawing).map(({ text }) => text);
export const textOf = (drawing: Drawing, text: string) => {
  const found = textsOf(drawing).find((item) => item.text === text);
  if (!found) throw new Error(`not drawn: ${text}`);
  return found;
};

/** From the drawing's points back to data, by the grid's lines and the base line alone. */
export function scalesOf(drawing: Drawing, chart: { y: LineChart["y"]; x: { start: number; end: number } }) {
  const base = pathsOf(drawing, "axis").find(({ stroke }) => stroke?.width === 0.75)!;
  const across = boundsOf(base);
  const rows = pathsOf(drawing, "grid")
    .map((line) => boundsOf(line).y1)
    .sort((a, b) => b - a);
  const [low, high] = [chart.y.ticks.at(0)!, chart.y.ticks.at(-1)!];
  return {
    x: (px: number) => chart.x.start + ((px - across.x1) / (across.x2 - across.x1)) * (chart.x.end - chart.x.start),
    y: (py: number) => low + ((rows[0]! - py) / (rows[0]! - rows.at(-1)!)) * (high - low),
    base: across,
  };
}
