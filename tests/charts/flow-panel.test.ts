import fc from "fast-check";
import { expect, test } from "vitest";
import { drawChart } from "../../src/charts/draw-chart.ts";
import type { FlowPanel } from "../../src/sheet/content.ts";
import { liftAxis, panelAxis } from "../../src/sheet/panel-axis.ts";
import { lightness } from "../../src/theme/contrast.ts";
import { after, before, boundsOf, env, flowChart, pathsOf, textOf, textsOf, words } from "./chart-samples.ts";

const size = { width: 239.6, height: 125 };
const PLOT = size.height - 13;
const axes = {
  x: { title: "lift, mm", ...liftAxis(10, size.width) },
  y: { title: "cfm", ...panelAxis(223.6, 112) },
};
const gain = [2, 4, 6, 8].map((x, i) => {
  const [first, second] = flowChart.series;
  return { x, low: first!.points[i]!.y, high: second!.points[i]!.y };
});
const panel: FlowPanel = {
  kind: "flow-panel",
  ...axes,
  series: flowChart.series,
  gain,
  cam: { at: 8.5, bar: { from: 184, to: 212 } },
};
const drawn = drawChart(panel, size, env);
const y = (value: number) => PLOT - (value / axes.y.end) * PLOT;
const x = (value: number) => (value / axes.x.end) * size.width;

test("labels stand on their grid lines inside the plot, the unit after the topmost; no title, no tick", () => {
  expect(words(drawn)).toEqual(expect.arrayContaining(["50", "100", "150", "200\u00a0cfm", "lift, mm", "2", "10"]));
  expect(words(drawn)).not.toContain("0");
  for (const tick of axes.y.ticks.slice(1)) {
    const label = textOf(drawn, tick === 200 ? "200\u00a0cfm" : `${tick}`);
    expect(label.x).toBe(0);
    expect(y(tick) - label.y).toBeCloseTo(2.5, 2);
  }
  const lines = pathsOf(drawn, "grid");
  expect(lines.map(({ stroke }) => stroke)).toEqual(
    axes.y.ticks.slice(1).map(() => ({ color: env.colors.grid, width: 0.5 })),
  );
  const zero = pathsOf(drawn, "axis").find((line) => boundsOf(line).y1 === boundsOf(line).y2);
  expect(zero?.stroke).toEqual({ color: env.colors.ink, width: 0.75 });
});

test("the gain is tinted up to the cam, the ground past it is pale, the bar at it is black from before to after", () => {
  const [tint] = pathsOf(drawn, "band");
  expect(tint).toMatchObject({ fill: env.colors.tint });
  expect(boundsOf(tint!).x2).toBeCloseTo(x(8), 2);
  const beyond = pathsOf(drawn, "shape").find(({ fill }) => fill === env.colors.beyond)!;
  expect(boundsOf(beyond)).toMatchObject({ x2: size.width, y1: 0, y2: PLOT });
  expect(boundsOf(beyond).x1).toBeCloseTo(x(8.5), 2);
  const bar = pathsOf(drawn, "shape").find(({ stroke }) => stroke?.width === 2.25)!;
  expect(bar.stroke?.color).toBe(env.colors.ink);
  expect(boundsOf(bar).y1).toBeCloseTo(y(212), 2);
  expect(boundsOf(bar).y2).toBeCloseTo(y(184), 2);
  const order = drawn.items.map(({ role }) => role);
  expect(order.indexOf("band")).toBeLessThan(order.indexOf("grid"));
  expect(order.indexOf("grid")).toBeLessThan(order.indexOf("curve"));
});

test("the upper line is named above it, bold, in its colour; the lower one below it in quiet; none in the tint", () => {
  const [upper, lower] = [textOf(drawn, "Finished"), textOf(drawn, "As received")];
  expect(upper).toMatchObject({ weight: "semibold", color: after.label });
  expect(lower).toMatchObject({ weight: "regular", color: env.colors.quiet });
  const middle = (text: typeof upper) => text.x + env.measure.width(text.text, text.weight, text.size) / 2;
  const flowAt = (series: number, at: number) => {
    const { curve } = flowChart.series[series]!;
    const i = curve.findIndex(([lift]) => x(lift) >= at);
    const [a, b] = [curve[i - 1]!, curve[i]!];
    return a[1] + ((at - x(a[0])) / (x(b[0]) - x(a[0]))) * (b[1] - a[1]);
  };
  expect(upper.y).toBeLessThan(y(flowAt(1, middle(upper))));
  expect(lower.y - 7).toBeGreaterThan(y(flowAt(0, middle(lower))));
});

test("the cam's words stand at the foot; without a cam neither they nor its ground are drawn", () => {
  expect(textOf(drawn, "your cam").color).toBe(env.colors.ink);
  const { cam: _, gain: __, ...plain } = panel;
  const bare = drawChart(plain, size, env);
  expect(words(bare)).not.toContain("your cam");
  expect(pathsOf(bare, "band")).toEqual([]);
  expect(pathsOf(bare, "shape").filter(({ fill }) => fill === env.colors.beyond)).toEqual([]);
});

test("two curves within their ±: one line, one name, a grey ring of 4.2 pt under each disc", () => {
  const [first, last] = flowChart.series;
  const series = [
    { ...first!, label: "", curve: [], ring: true as const },
    { ...last!, label: "As received and finished, within ±" },
  ];
  const one = drawChart({ ...panel, series }, size, env);
  expect(pathsOf(one, "curve")).toHaveLength(1);
  const rings = pathsOf(one, "reading").filter((mark) => boundsOf(mark).x2 - boundsOf(mark).x1 > 8);
  expect(rings).toHaveLength(first!.points.length);
  expect(rings[0]).toMatchObject({ fill: env.colors.paper, stroke: { color: before.color, width: 1 } });
  expect(boundsOf(rings[0]!).x2 - boundsOf(rings[0]!).x1).toBeCloseTo(8.4, 2);
});

test("error bars are drawn for readings that have a ±, and only for those", () => {
  expect(pathsOf(drawn, "error-bar")).toEqual([]);
  const [series] = flowChart.series;
  const points = [{ ...series!.points[2]!, plusMinus: 12 }, series!.points[3]!];
  const bars = pathsOf(drawChart({ ...panel, series: [{ ...series!, points }] }, size, env), "error-bar").map(boundsOf);
  expect(bars.filter(({ x1, x2 }) => x1 === x2)).toHaveLength(1);
});

const flows = fc.record({
  top: fc.double({ min: 5, max: 900, noNaN: true }),
  share: fc.double({ min: 0.4, max: 1.3, noNaN: true }),
  lifts: fc.integer({ min: 3, max: 14 }),
  cam: fc.option(fc.double({ min: 0.15, max: 0.98, noNaN: true }), { nil: undefined }),
  bend: fc.double({ min: 1.2, max: 4, noNaN: true }),
});

test("whatever the curves: nothing leaves the drawing, no two texts touch, the latest is drawn last", () =>
  fc.assert(
    fc.property(flows, ({ top, share, lifts, cam, bend }) => {
      const curve = (scale: number) =>
        Array.from({ length: lifts }, (_, i) => [i + 1, scale * top * (1 - (1 - (i + 1) / lifts) ** bend)] as const);
      const line = (name: string, style: typeof before, scale: number) => ({
        name,
        label: name,
        style,
        curve: curve(scale),
        points: curve(scale).map(([px, py]) => ({ x: px, y: py, kind: "good" as const })),
      });
      const chart: FlowPanel = {
        kind: "flow-panel",
        x: { title: "lift, mm", ...liftAxis(lifts, size.width) },
        y: { title: "cfm", ...panelAxis(top * Math.max(1, share), 112) },
        series: [line("As received", before, share), line("Finished", after, 1)],
        ...(cam ? { cam: { at: cam * lifts } } : {}),
      };
      const drawing = drawChart(chart, size, env);
      for (const item of drawing.items) {
        const bounds = boundsOf(item);
        expect(bounds.x1).toBeGreaterThanOrEqual(-0.01);
        expect(bounds.x2).toBeLessThanOrEqual(size.width + 0.01);
        expect(bounds.y1).toBeGreaterThanOrEqual(-0.01);
        expect(bounds.y2).toBeLessThanOrEqual(size.height + 0.01);
      }
      const texts = textsOf(drawing).map((text) => ({ text: text.text, ...boundsOf(text) }));
      for (const [i, a] of texts.entries())
        for (const b of texts.slice(i + 1))
          expect(
            a.x1 < b.x2 - 0.01 && b.x1 < a.x2 - 0.01 && a.y1 < b.y2 - 0.01 && b.y1 < a.y2 - 0.01,
            `${a.text} / ${b.text}`,
          ).toBe(false);
      expect(pathsOf(drawing, "curve").at(-1)?.stroke?.color).toBe(after.color);
    }),
    { seed: 11, numRuns: 40 },
  ));

test("in grey: tint and zone stand off the paper by 8 and 10 in L*", () => {
  const { paper, tint, zone } = env.colors;
  expect(lightness(paper) - lightness(tint)).toBeGreaterThanOrEqual(8);
  expect(lightness(paper) - lightness(zone)).toBeGreaterThanOrEqual(10);
});
