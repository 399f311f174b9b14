import type { FlowPanel, LineChart, Series } from "../sheet/content.ts";
import type { Weight } from "../text/measure.ts";
import type { ChartEnv } from "./chart-env.ts";
import { BASELINE, chartText, type FittedText, fitText, LEAD, LINE, textWidth } from "./chart-text.ts";
import type { DrawingItem, TextItem } from "./drawing.ts";
import { type Box, bottom, boxesOverlap, isBoxInside, type Point, right, type Segment } from "./geometry.ts";
import { chartObstacles, countHits, type Obstacles, type ToPoint } from "./obstacles.ts";
import type { PanelFrame } from "./panel-frame.ts";

/** A name and the places it may take, the best first. */
type Name = {
  readonly text: FittedText;
  readonly spots: readonly Box[];
  readonly color: string;
  readonly weight?: Weight;
};

/** Gap between a line and its name, and the further ones tried [pt]. */
const GAPS = [3, 6, 10, 15, 21];
/** Radius of the ring round a reading whose value is named [pt]. */
export const RING = 5.5;
/** Step of the places tried along a line [pt]. */
const STEP = 3;
/** Widest name on one line, as a share of the plot. */
const WIDEST = 0.42;

/** Names on the lines: the upper line's above it, the lower one's below it; then the words at the cam. None touches another. */
export function panelNames(
  chart: FlowPanel,
  { plot, toPoint, labels }: PanelFrame,
  env: ChartEnv,
): readonly DrawingItem[] {
  const fixed = panelObstacles(chart, plot, toPoint, labels, env);
  const items: DrawingItem[] = [];
  const taken: Box[] = [];
  const put = ({ text, spots, color, weight = "regular" }: Name, must: boolean) => {
    const box = clearest(
      spots,
      { hard: { ...fixed.hard, boxes: [...fixed.hard.boxes, ...taken] }, soft: fixed.soft },
      must,
    );
    if (!box) return;
    taken.push(box);
    const onGround = fixed.beyond !== undefined && boxesOverlap(box, fixed.beyond);
    const look = { role: "label", color: onGround ? env.colors.ink : color, weight } as const;
    for (const [i, line] of text.lines.entries())
      items.push(chartText(line, box.x, box.y + BASELINE + i * LEAD, "left", look, env.measure));
  };
  for (const name of ringValues(chart, toPoint, plot, env)) put(name, true);
  for (const { name, must } of camWords(chart, plot, toPoint, env)) put(name, must);
  for (const series of [...chart.series].reverse()) {
    if (series.label.trim() === "") continue;
    put(lineName(series, chart, plot, toPoint, env), true);
  }
  return items;
}

/** Values of ringed readings: under the ring, else over it or beside it. */
function ringValues({ rings = [] }: FlowPanel, toPoint: ToPoint, plot: Box, env: ChartEnv): readonly Name[] {
  return rings.map(({ x, y, label }) => {
    const [px, py] = toPoint(x, y);
    const text = fitText(label, plot.width, 1, textWidth(env.measure, "semibold"));
    const size = { width: text.width, height: LINE };
    const offsets = [
      ...[2, -6, 8].map((dx): Point => [dx - text.width / 2, RING + 2]),
      ...[0, -8].map((dx): Point => [dx - text.width / 2, -RING - 2 - LINE]),
      [RING + 3, -LINE / 2] as const,
      ...[10, 20, 30].flatMap((dy) => [0, 20, -20].map((dx): Point => [dx - text.width / 2, RING + dy])),
    ];
    const spots = offsets.map(([dx, dy]): Box => ({ x: px + dx, y: py + dy, ...size }));
    return { text, spots: spots.filter((box) => isBoxInside(box, plot)), color: env.colors.ink, weight: "semibold" };
  });
}

/** "your cam" left of its line and "beyond it" right of it, at the foot; the second only where it is free. */
function camWords({ cam, y }: FlowPanel, plot: Box, toPoint: ToPoint, env: ChartEnv) {
  if (!cam) return [];
  const [x] = toPoint(cam.at, y.start);
  const width = textWidth(env.measure);
  const name = (words: string, left: boolean): Name => {
    const text = fitText(words, plot.width, 1, width);
    const at = (onLeft: boolean, up: number): Box => ({
      x: onLeft ? x - 4 - text.width : x + 4,
      y: bottom(plot) - 3 - LINE - up,
      width: text.width,
      height: LINE,
    });
    const ups = left
      ? Array.from({ length: Math.max(1, Math.floor((plot.height - LINE - 6) / 4)) }, (_, i) => 4 * i)
      : [0];
    const spots = ups.flatMap((up) => (left ? [at(true, up), at(false, up)] : [at(false, up)]));
    return { text, spots: spots.filter((box) => isBoxInside(box, plot)), color: env.colors.ink };
  };
  return [
    { name: name("your cam", true), must: true },
    { name: name("beyond it", false), must: false },
  ];
}

/** The name of a line: above it where it is the highest, below it where another is. */
function lineName(series: Series, chart: FlowPanel, plot: Box, toPoint: ToPoint, env: ChartEnv): Name {
  const latest = series.style === chart.series.at(-1)?.style;
  const weight = latest ? "semibold" : "regular";
  const text = fitText(series.label, plot.width * WIDEST, 2, textWidth(env.measure, weight));
  const size = { width: text.width, height: LINE + (text.lines.length - 1) * LEAD };
  const points = (series.curve.length > 0 ? series.curve : series.points.map(({ x, y }) => [x, y] as const)).map(
    ([x, y]): Point => toPoint(x, y),
  );
  const levels = chart.series.filter(({ label }) => label.trim() !== "").map(meanHeight);
  const own = meanHeight(series);
  const [highest, lowest] = [own >= Math.max(...levels), own <= Math.min(...levels)];
  const sides = highest
    ? (["above", "below"] as const)
    : lowest
      ? (["below", "above"] as const)
      : (["above", "below"] as const);
  const middle = plot.x + plot.width / 2;
  const along = Array.from(
    { length: Math.floor((plot.width - size.width) / STEP) + 1 },
    (_, i) => plot.x + i * STEP,
  ).sort((a, b) => Math.abs(a + size.width / 2 - middle) - Math.abs(b + size.width / 2 - middle));
  const stretches = along.flatMap((x) => {
    const between = heightRange(points, x, x + size.width);
    return between ? [{ x, ...between }] : [];
  });
  const spots = sides.flatMap((side) =>
    GAPS.flatMap((gap) =>
      stretches.map(
        ({ x, top, foot }): Box => ({ x, y: side === "above" ? top - gap - size.height : foot + gap, ...size }),
      ),
    ),
  );
  return {
    text,
    spots: spots.filter((box) => isBoxInside(box, plot)),
    color: latest ? series.style.label : env.colors.quiet,
    weight,
  };
}

const meanHeight = ({ curve, points }: Series) => {
  const ys = curve.length > 0 ? curve.map(([, y]) => y) : points.map(({ y }) => y);
  return ys.reduce((sum, y) => sum + y, 0) / Math.max(1, ys.length);
};

/** Least and greatest y of a line over a stretch, its ends included; `undefined` where the line is not over it. */
function heightRange(points: readonly Point[], from: number, to: number) {
  let [top, foot] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  const take = (y: number) => {
    top = Math.min(top, y);
    foot = Math.max(foot, y);
  };
  for (const [i, b] of points.entries()) {
    if (b[0] >= from && b[0] <= to) take(b[1]);
    const a = points[i - 1];
    if (!a) continue;
    for (const x of [from, to]) if (a[0] < x && x < b[0]) take(a[1] + ((x - a[0]) / (b[0] - a[0])) * (b[1] - a[1]));
  }
  return top <= foot ? { top, foot } : undefined;
}

/** `hard` are never written over while there is another place; `soft` are grid lines. */
type PanelObstacles = { readonly hard: Obstacles; readonly soft: Obstacles; readonly beyond?: Box };

function panelObstacles(
  chart: FlowPanel,
  plot: Box,
  toPoint: ToPoint,
  labels: readonly TextItem[],
  env: ChartEnv,
): PanelObstacles {
  const { x, y, series, cam, gain = [], zone = [], levels = [] } = chart;
  const marks = [
    ...(cam ? [{ axis: "x", at: cam.at, label: "" } as const] : []),
    ...levels.map((at) => ({ axis: "y", at, label: "" }) as const),
  ];
  const line: LineChart = { kind: "line", x, y, series, marks };
  const own = chartObstacles(line, plot, toPoint);
  const uprights = [...gain, ...zone].map((at): Segment => [toPoint(at.x, at.low), toPoint(at.x, at.high)]);
  const texts = labels.map(
    (item): Box => ({
      x: item.x,
      y: item.y - BASELINE,
      width: env.measure.width(item.text, item.weight, item.size),
      height: LINE,
    }),
  );
  const rings = (chart.rings ?? []).map((ring): Box => {
    const [px, py] = toPoint(ring.x, ring.y);
    return { x: px - RING, y: py - RING, width: 2 * RING, height: 2 * RING };
  });
  const grid = y.ticks
    .filter((tick) => tick !== 0)
    .map((tick): Segment => [toPoint(x.start, tick), toPoint(x.end, tick)]);
  const from = cam ? toPoint(cam.at, y.start)[0] : undefined;
  const beyond =
    from === undefined ? {} : { beyond: { x: from, y: plot.y, width: right(plot) - from, height: plot.height } };
  return {
    hard: { segments: [...own.segments, ...uprights], boxes: [...own.boxes, ...texts, ...rings] },
    soft: { segments: grid, boxes: [] },
    ...beyond,
  };
}

/** The first spot that touches nothing, else the first off all lines, else the first that touches least. */
function clearest(spots: readonly Box[], { hard, soft }: PanelObstacles, must: boolean): Box | undefined {
  let best: { readonly box: Box; readonly cost: number } | undefined;
  for (const box of spots) {
    const cost = 100 * countHits(box, hard, 0.5) + countHits(box, soft, 0);
    if (cost === 0) return box;
    if (!best || cost < best.cost) best = { box, cost };
  }
  return best && (must || best.cost < 100) ? best.box : undefined;
}
