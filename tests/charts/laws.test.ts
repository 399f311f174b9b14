import fc from "fast-check";
import { expect, test } from "vitest";
import { MIN_CHART, SECOND_SCALE } from "../../src/charts/chart-env.ts";
import { drawChart } from "../../src/charts/draw-chart.ts";
import type { Drawing, DrawingItem, TextItem } from "../../src/charts/drawing.ts";
import { type Bounds, boundsOf, env, freshShapes, pathsOf, textsOf } from "./chart-samples.ts";
import { barCharts, lineCharts, sizes } from "./random-charts.ts";

const runs = { numRuns: 30, seed: 20_240_601 };

/** A stroke's half width lies outside its path. */
const within = ({ width, height }: Drawing, item: DrawingItem) => {
  const { x1, y1, x2, y2 } = boundsOf(item);
  const half = item.kind === "path" ? (item.stroke?.width ?? 0) / 2 : 0;
  return x1 - half >= -0.01 && y1 - half >= -0.01 && x2 + half <= width + 0.01 && y2 + half <= height + 0.01;
};
const touch = (a: Bounds, b: Bounds) =>
  a.x1 < b.x2 - 0.01 && b.x1 < a.x2 - 0.01 && a.y1 < b.y2 - 0.01 && b.y1 < a.y2 - 0.01;
const touching = (texts: readonly TextItem[]) =>
  texts.flatMap((a, i) =>
    texts.slice(i + 1).flatMap((b) => (touch(boundsOf(a), boundsOf(b)) ? [`${a.text} / ${b.text}`] : [])),
  );

test("nothing is drawn outside a line chart's bounds", () =>
  fc.assert(
    fc.property(lineCharts, sizes, (chart, size) => {
      const drawing = drawChart(chart, size, env);
      expect(drawing).toMatchObject(size);
      expect(drawing.items.filter((item) => !within(drawing, item))).toEqual([]);
    }),
    runs,
  ));

test("a chart of the least size can be drawn, whatever its names and numbers", () =>
  fc.assert(
    fc.property(fc.oneof(lineCharts, barCharts), (chart) => {
      const plain = chart.kind === "line" && chart.top === undefined;
      const least = { ...MIN_CHART, height: MIN_CHART.height - (plain ? SECOND_SCALE : 0) };
      expect(drawChart(chart, least, env)).toMatchObject(least);
    }),
    { numRuns: 100, seed: 7 },
  ));

test("nothing is drawn outside a bar chart's bounds", () =>
  fc.assert(
    fc.property(barCharts, sizes, (chart, size) => {
      const drawing = drawChart(chart, size, env);
      expect(drawing.items.filter((item) => !within(drawing, item))).toEqual([]);
    }),
    runs,
  ));

test("every reading is drawn once, in order", () =>
  fc.assert(
    fc.property(lineCharts, sizes, (chart, size) => {
      const markers = pathsOf(drawChart(chart, size, env), "reading");
      const points = chart.series.flatMap((series) => series.points.map(() => series.style.color));
      expect(markers.map(({ stroke }) => stroke!.color)).toEqual(points);
    }),
    runs,
  ));

test("names at lines' ends, titles and axis numbers never touch one another", () =>
  fc.assert(
    fc.property(lineCharts, sizes, (chart, size) => {
      // The word of a line up the panel takes the place that disturbs least, which may disturb something.
      const marks = (chart.marks ?? []).filter(({ axis }) => axis === "y");
      expect(touching(textsOf(drawChart({ ...chart, marks }, size, env)))).toEqual([]);
    }),
    runs,
  ));

test("the texts of a bar chart never touch one another", () =>
  fc.assert(
    fc.property(barCharts, sizes, (chart, size) => {
      // Two bars of one category and group stand on each other: no chart of ours has them.
      const seen = new Set<string>();
      const bars = chart.bars.filter(({ category, group = "" }) => {
        const key = JSON.stringify(chart.groups.length > 1 ? [category, group] : [category]);
        return !seen.has(key) && seen.add(key);
      });
      expect(touching(textsOf(drawChart({ ...chart, bars }, size, env)))).toEqual([]);
    }),
    runs,
  ));

test("the same chart twice is the same drawing", () =>
  fc.assert(
    fc.property(fc.oneof(lineCharts, barCharts), sizes, (chart, size) => {
      expect(JSON.stringify(drawChart(chart, size, env))).toBe(JSON.stringify(drawChart(chart, size, env)));
    }),
    { ...runs, numRuns: 6 },
  ));

test("a chart is the same whatever was drawn before it", () =>
  fc.assert(
    fc.property(fc.array(fc.oneof(lineCharts, barCharts), { minLength: 2, maxLength: 4 }), sizes, (charts, size) => {
      const shared = { ...env, shapes: freshShapes() };
      for (const chart of charts) {
        const alone = { ...env, shapes: freshShapes() };
        expect(drawChart(chart, size, shared)).toEqual(drawChart(chart, size, alone));
      }
    }),
    { ...runs, numRuns: 6 },
  ));
