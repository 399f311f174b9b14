import type { SpreadChart } from "../sheet/content.ts";
import type { ChartEnv, Size } from "./chart-env.ts";
import { BASELINE, chartText, LINE, textWidth } from "./chart-text.ts";
import type { Drawing, DrawingItem } from "./drawing.ts";
import { boxPath, circlePath, linePath } from "./geometry.ts";
import { BELOW } from "./panel-room.ts";

/** Radius of a dot to the middle of its outline, most height of a zone, gaps between columns and groups [pt]. */
const DOT = 2.6;
const ZONE = 12;
const GAP = 10;
/** Between two groups, as a share of a row. */
const GROUP_GAP = 0.4;

type Row = SpreadChart["groups"][number]["rows"][number] & { readonly name: string; readonly y: number };

/** Draws each part as an open dot about the mean, joined by a line, on the ground of one reading's ±. */
export function drawSpread(chart: SpreadChart, size: Size, env: ChartEnv): Drawing {
  const { plot, rows, pitch, labelX } = layOutSpread(chart, size, env);
  const toX = (percent: number) => plot.left + ((percent + chart.reach) / (2 * chart.reach)) * (plot.right - plot.left);
  const half = Math.min(ZONE, pitch * 0.75) / 2;
  const { ink, quiet } = env.colors;
  const text = (words: string, x: number, y: number, align: "left" | "center" | "right", strong = false) =>
    chartText(words, x, y - LINE / 2 + BASELINE, align, look(strong, ink, quiet), env.measure);
  const zones = rows.flatMap((row) => zoneItems(row, toX, half, env));
  const dots = rows.flatMap((row) => dotItems(row, chart, toX, env));
  const labels = rows.flatMap(({ name, label, value, strong, y }) => [
    ...(name === "" ? [] : [text(name, 0, y, "left", true)]),
    text(label, labelX, y, "left"),
    text(value, size.width, y, "right", strong === true),
  ]);
  const foot = size.height - LINE / 2;
  const ticks = [-chart.tick, 0, chart.tick].map((at) =>
    text(at === 0 ? "mean" : `${at > 0 ? "+" : "\u2212"}${chart.tick}\u00a0%`, toX(at), foot, "center"),
  );
  const middle = linePath([
    [toX(0), 0],
    [toX(0), size.height - BELOW],
  ]);
  const grid = [-chart.tick, chart.tick].map((at): DrawingItem => {
    const d = linePath([
      [toX(at), 0],
      [toX(at), size.height - BELOW],
    ]);
    return { kind: "path", role: "grid", d, stroke: { color: env.colors.grid, width: 0.5 } };
  });
  const mean: DrawingItem = { kind: "path", role: "axis", d: middle, stroke: { color: ink, width: 0.75 } };
  const ends = [text(chart.x.title, 0, foot, "left"), text(chart.y.title, size.width, foot, "right")];
  return { ...size, items: [...grid, ...zones, mean, ...dots, ...labels, ...ticks, ...ends] };
}

const look = (strong: boolean, ink: string, quiet: string) =>
  ({ role: "label", color: strong ? ink : quiet, weight: strong ? "semibold" : "regular" }) as const;

/** Columns by their widest words; rows share the height, with a gap between groups. */
function layOutSpread({ groups }: SpreadChart, size: Size, env: ChartEnv) {
  const widest = (words: readonly string[], strong: boolean) =>
    Math.max(0, ...words.map(textWidth(env.measure, strong ? "semibold" : "regular")));
  const all = groups.flatMap(({ rows }) => rows);
  const names = groups.map(({ name }) => name);
  const labelX = widest(names, true) + GAP;
  const left =
    labelX +
    widest(
      all.map(({ label }) => label),
      false,
    ) +
    GAP;
  const right =
    size.width -
    widest(
      all.map(({ value }) => value),
      true,
    ) -
    GAP;
  const pitch = (size.height - BELOW) / (all.length + GROUP_GAP * (groups.length - 1));
  let place = 0;
  const rows = groups.flatMap((group, g): readonly Row[] => {
    if (g > 0) place += GROUP_GAP;
    return group.rows.map((row, i) => {
      const y = (place + 0.5) * pitch;
      place += 1;
      return { ...row, name: i === 0 ? group.name : "", y };
    });
  });
  return { plot: { left, right }, rows, pitch, labelX };
}

/** The ± of one reading, its ends drawn. */
function zoneItems(
  { zone, y }: Row,
  toX: (percent: number) => number,
  half: number,
  { colors }: ChartEnv,
): readonly DrawingItem[] {
  if (zone === undefined) return [];
  const [from, to] = [toX(-zone), toX(zone)];
  const ends = [from, to].map((x): DrawingItem => {
    const d = linePath([
      [x, y - half],
      [x, y + half],
    ]);
    return { kind: "path", role: "band", d, stroke: { color: colors.earlier, width: 0.75 } };
  });
  const d = boxPath({ x: from, y: y - half, width: to - from, height: 2 * half });
  return [{ kind: "path", role: "band", d, fill: colors.zone }, ...ends];
}

function dotItems(
  { dots, y }: Row,
  { color }: SpreadChart,
  toX: (percent: number) => number,
  { colors }: ChartEnv,
): readonly DrawingItem[] {
  const line = linePath([
    [toX(Math.min(...dots)), y],
    [toX(Math.max(...dots)), y],
  ]);
  return [
    { kind: "path", role: "curve", d: line, stroke: { color, width: 0.75 } },
    ...dots.map(
      (dot): DrawingItem => ({
        kind: "path",
        role: "reading",
        d: circlePath([toX(dot), y], DOT),
        fill: colors.paper,
        stroke: { color, width: 1 },
      }),
    ),
  ];
}
