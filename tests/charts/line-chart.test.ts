import * as vega from "vega";
import { expect, test } from "vitest";
import { drawChart } from "../../src/charts/draw-chart.ts";
import { endLabelRoom } from "../../src/charts/line-ends.ts";
import type { LineChart } from "../../src/sheet/content.ts";
import {
  after,
  before,
  boundsOf,
  env,
  flowChart,
  middleOf,
  pathsOf,
  scalesOf,
  size,
  textOf,
  textsOf,
  words,
} from "./chart-samples.ts";

const drawing = drawChart(flowChart, size, env);
const pointsOf = (chart: LineChart) =>
  chart.series.flatMap((series) => series.points.map(({ x, y }) => [x, y] as const));

test("every reading is read back from its place within 0.05 % of the axes", () => {
  const scales = scalesOf(drawing, flowChart);
  const read = pathsOf(drawing, "reading").map((item) => {
    const [px, py] = middleOf(item);
    return [scales.x(px), scales.y(py)] as const;
  });
  const wanted = pointsOf(flowChart);
  expect(read).toHaveLength(wanted.length);
  for (const [i, [x, y]] of wanted.entries()) {
    expect(Math.abs(read[i]![0] - x)).toBeLessThan(10 * 0.0005);
    expect(Math.abs(read[i]![1] - y)).toBeLessThan(250 * 0.0005);
  }
});

test.each(["square", "triangle-up", "triangle-down", "diamond", "cross"] as const)(
  "a %s stands with its middle on the reading",
  (marker) => {
    const chart = {
      ...flowChart,
      series: flowChart.series.map((series) => ({ ...series, style: { ...series.style, marker } })),
    };
    const marked = drawChart(chart, size, env);
    const scales = scalesOf(marked, chart);
    for (const [i, [x, y]] of pointsOf(chart).entries()) {
      const [px, py] = middleOf(pathsOf(marked, "reading")[i]!);
      expect(Math.abs(scales.x(px) - x)).toBeLessThan(10 * 0.0005);
      expect(Math.abs(scales.y(py) - y)).toBeLessThan(250 * 0.0005);
    }
  },
);

test("a curve has the points it was given, where they were given", () => {
  const curves = pathsOf(drawing, "curve");
  const scales = scalesOf(drawing, flowChart);
  expect(curves).toHaveLength(2);
  for (const [i, { curve }] of flowChart.series.entries()) {
    const commands = curves[i]!.d;
    expect(commands).toHaveLength(curve.length);
    for (const [j, [x, y]] of curve.entries()) {
      const [, px, py] = commands[j] as readonly ["M" | "L", number, number];
      expect(Math.abs(scales.x(px) - x)).toBeLessThan(10 * 0.0005);
      expect(Math.abs(scales.y(py) - y)).toBeLessThan(250 * 0.0005);
    }
  }
});

test("lines and markers carry their series' style", () => {
  const [first, second] = pathsOf(drawing, "curve");
  expect(first!.stroke).toEqual({ color: before.color, width: 1, dash: [5, 2.5], join: "round" });
  expect(second!.stroke).toEqual({ color: after.color, width: 1.75, join: "round" });
  const readings = pathsOf(drawing, "reading");
  expect(readings.map(({ fill }) => fill)).toEqual([...Array(5).fill(env.colors.paper), ...Array(5).fill(after.color)]);
  expect(new Set(readings.slice(0, 5).map(({ stroke }) => stroke!.color))).toEqual(new Set([before.color]));
});

test("grid lines are level, 0.5 pt, one a tick", () => {
  const grid = pathsOf(drawing, "grid");
  expect(grid).toHaveLength(flowChart.y.ticks.length);
  for (const line of grid) {
    expect(line.stroke).toEqual({ color: env.colors.grid, width: 0.5 });
    expect(boundsOf(line).y1).toBe(boundsOf(line).y2);
  }
});

test("titles, numbers and names are whole strings, the y title level above its axis", () => {
  expect(words(drawing)).toEqual(
    expect.arrayContaining([
      "Flow (cfm)",
      "Valve lift (mm)",
      "0",
      "2",
      "4",
      "6",
      "8",
      "10",
      "50",
      "100",
      "150",
      "200",
      "250",
      "As received",
      "Finished",
    ]),
  );
  const title = textOf(drawing, "Flow (cfm)");
  expect(title).toMatchObject({ x: 0, size: 8.5 });
  expect(title.angle).toBeUndefined();
  expect(title.y).toBeLessThan(Math.min(...pathsOf(drawing, "grid").map((line) => boundsOf(line).y1)));
});

test("a name stands beside its line's end, in the line's colour where that is readable, else in ink", () => {
  const end = middleOf(pathsOf(drawing, "reading").at(-1)!);
  const name = textOf(drawing, "Finished");
  expect(name.x).toBeGreaterThan(end[0]);
  expect(Math.abs(name.y - 2.5 - end[1])).toBeLessThan(1.5);
  expect(name.color).toBe(after.color);
  expect(textOf(drawing, "As received").color).toBe(env.colors.ink);
});

test("names that would touch are moved apart, and led to", () => {
  const close = {
    ...flowChart,
    series: flowChart.series.map((series) => ({ ...series, curve: flowChart.series[0]!.curve })),
  };
  const moved = drawChart(close, size, env);
  expect(Math.abs(textOf(moved, "Finished").y - textOf(moved, "As received").y)).toBeGreaterThanOrEqual(9.5);
  expect(pathsOf(moved, "label").map(({ stroke }) => stroke)).toEqual([
    { color: before.color, width: 0.5 },
    { color: after.color, width: 0.5 },
  ]);
  expect(pathsOf(drawing, "label")).toEqual([]);
});

test("a line that stops early is named at its end, inside the panel and off the other line", () => {
  const [first, second] = flowChart.series;
  const short = { ...second!, curve: second!.curve.slice(0, 4), points: second!.points.slice(0, 3) };
  const early = drawChart({ ...flowChart, series: [first!, short] }, size, env);
  const name = textOf(early, "Finished");
  const { base } = scalesOf(early, flowChart);
  expect(name.x).toBeLessThan(base.x2);
  expect(name.x + env.measure.width(name.text, "regular", 8.5)).toBeLessThanOrEqual(base.x2);
});

test("doubtful readings are open and struck, noisy ones ringed; both stay where they were measured", () => {
  const [, second] = flowChart.series;
  const points = second!.points.map((point, i) => ({
    ...point,
    kind: i === 1 ? ("doubtful" as const) : i === 3 ? ("noisy" as const) : point.kind,
  }));
  const flagged = drawChart({ ...flowChart, series: [{ ...second!, points }] }, size, env);
  const readings = pathsOf(flagged, "reading");
  expect(readings.map(({ fill }) => fill)).toEqual([
    after.color,
    env.colors.paper,
    after.color,
    after.color,
    after.color,
  ]);
  const flags = pathsOf(flagged, "shape").filter(({ stroke }) => stroke);
  expect(flags).toHaveLength(2);
  expect(flags.every(({ fill }) => fill === undefined)).toBe(true);
  for (const [flag, reading] of [
    [flags[0], readings[1]],
    [flags[1], readings[3]],
  ] as const) {
    expect(middleOf(flag!)[0]).toBeCloseTo(middleOf(reading!)[0], 2);
    expect(middleOf(flag!)[1]).toBeCloseTo(middleOf(reading!)[1], 2);
  }
});

test("an error bar reaches from value − ± to value + ±, with two caps; what the axis cuts has one", () => {
  const point = { x: 5, y: 100, kind: "good" as const, plusMinus: 20 };
  const [series] = flowChart.series;
  const chart = { ...flowChart, series: [{ ...series!, curve: [], points: [point, { ...point, x: 7, y: 10 }] }] };
  const drawn = drawChart(chart, size, env);
  const scales = scalesOf(drawn, chart);
  const bars = pathsOf(drawn, "error-bar");
  const upright = bars.map(boundsOf).filter(({ x1, x2 }) => x1 === x2);
  expect(upright.map(({ y1, y2 }) => [scales.y(y2), scales.y(y1)].map(Math.round))).toEqual([
    [80, 120],
    [0, 30],
  ]);
  expect(bars).toHaveLength(2 + 3);
  expect(bars.every(({ stroke }) => stroke!.width >= 0.5)).toBe(true);
});

test("a gap in a curve stays a gap", () => {
  const [, second] = flowChart.series;
  const curve = [...second!.curve.slice(0, 3), [Number.NaN, Number.NaN] as const, ...second!.curve.slice(3)];
  expect(
    pathsOf(drawChart({ ...flowChart, series: [{ ...second!, curve }] }, size, env), "curve").map(({ d }) => d.length),
  ).toEqual([3, 3]);
});

test("a second scale stands along the top, its words over their places", () => {
  const top = {
    title: "Lift ÷ diameter",
    ticks: [0, 0.1, 0.2].map((share) => ({ at: share * 40, label: share.toFixed(2) })),
  };
  const drawn = drawChart({ ...flowChart, top }, size, env);
  const { base, x } = scalesOf(drawn, flowChart);
  for (const { at, label } of top.ticks) {
    const item = textOf(drawn, label);
    expect(x(middleOf(item)[0])).toBeCloseTo(at, 2);
    expect(item.y).toBeLessThan(Math.min(...pathsOf(drawn, "grid").map((line) => boundsOf(line).y1)));
  }
  expect(base.y1).toBeGreaterThan(textOf(drawn, "Lift ÷ diameter").y);
});

test("bands are filled under everything, lines across carry their word", () => {
  const chart: LineChart = {
    ...flowChart,
    bands: [{ label: "range of 5", points: [0, 5, 10].map((x) => ({ x, low: 10 * x, high: 14 * x })) }],
    marks: [
      { axis: "x", at: 9, label: "net lift" },
      { axis: "y", at: 240, label: "limit" },
    ],
  };
  const drawn = drawChart(chart, size, env);
  expect(pathsOf(drawn, "band")).toHaveLength(1);
  expect(drawn.items.findIndex(({ role }) => role === "band")).toBeLessThan(
    drawn.items.findIndex(({ role }) => role === "curve"),
  );
  expect(words(drawn)).toEqual(expect.arrayContaining(["range of 5", "net lift", "limit"]));
  const across = pathsOf(drawn, "axis").filter(({ stroke }) => stroke?.dash?.length === 4);
  const { x, y } = scalesOf(drawn, chart);
  expect(x(boundsOf(across[0]!).x1)).toBeCloseTo(9, 2);
  expect(y(boundsOf(across[1]!).y1)).toBeCloseTo(240, 1);
});

test("panels given the most label room of both have equal plots", () => {
  const other = {
    ...flowChart,
    series: flowChart.series.map((series) => ({ ...series, label: `${series.label}, again` })),
  };
  const labelRoom = Math.max(
    endLabelRoom(flowChart, env.measure, size.width),
    endLabelRoom(other, env.measure, size.width),
  );
  const [a, b] = [flowChart, other].map((chart) => scalesOf(drawChart(chart, size, env, { labelRoom }), chart).base);
  expect(a).toEqual(b);
});

test("a name too long for two lines ends in an ellipsis", () => {
  const label = "the head that came back from the machine shop after its second repair";
  const chart = { ...flowChart, series: [{ ...flowChart.series[0]!, label }] };
  expect(words(drawChart(chart, size, env)).filter((text) => text.endsWith("…"))).toHaveLength(1);
});

test("in a narrow chart a short name stands on one line, and the plot is a little narrower", () => {
  const narrow = { width: 113, height: 120 };
  const named = (label: string) => ({
    ...flowChart,
    series: flowChart.series.slice(0, 1).map((one) => ({ ...one, label })),
  });
  expect(words(drawChart(named("Stage 2"), narrow, env))).toContain("Stage 2");
  expect(words(drawChart(named("Port it"), { width: 200, height: 120 }, env))).toContain("Port it");
  // What is long anyway takes no more room than it did.
  const long = "Second stage with a valve";
  expect(endLabelRoom(named(long), env.measure, 113)).toBeLessThanOrEqual(113 * 0.27);
  const { base } = scalesOf(drawChart(named("Stage 2"), narrow, env), flowChart);
  expect(base.x2 - base.x1).toBeGreaterThan(45);
});

test("words of a job are data: what looks like an expression is printed as it stands", () => {
  const label = "datum.x + warn('a')";
  const tick = {
    ...flowChart,
    top: { title: "{title}", ticks: [{ at: 5, label: "{{x}}" }] },
    series: [{ ...flowChart.series[0]!, label, name: label }],
  };
  const drawn = words(drawChart(tick, { width: 480, height: 200 }, env));
  expect(drawn).toContain("{title}");
  expect(drawn).toContain("{{x}}");
  expect(drawn.join(" ")).toContain("datum.x + warn('a')");
});

test("the same chart twice is the same drawing, and the chart is left as it was", () => {
  const frozen = structuredClone(flowChart);
  expect(JSON.stringify(drawChart(flowChart, size, env))).toBe(JSON.stringify(drawing));
  expect(flowChart).toEqual(frozen);
});

test("Vega's own text metrics are left as they are", () => {
  const { textMetrics } = vega as unknown as { textMetrics: { width: unknown } };
  const own = textMetrics.width;
  drawChart(flowChart, size, env);
  expect(textMetrics.width).toBe(own);
  const broken = { ...env, measure: { ...env.measure, width: () => Number.NaN } };
  expect(() => drawChart(flowChart, size, broken)).toThrow(RangeError);
  expect(textMetrics.width).toBe(own);
});

test("a reading outside its axes is our mistake, not hidden", () => {
  const [series] = flowChart.series;
  const off = (x: number, y: number) => ({
    ...flowChart,
    series: [{ ...series!, points: [{ x, y, kind: "good" as const }] }],
  });
  expect(() => drawChart(off(5, 251), size, env)).toThrow(/outside the axis "Flow \(cfm\)"/);
  expect(() => drawChart(off(10.1, 5), size, env)).toThrow(RangeError);
  expect(() => drawChart(off(5, Number.NaN), size, env)).toThrow(RangeError);
  expect(() => drawChart({ ...flowChart, y: { ...flowChart.y, end: 0 } }, size, env)).toThrow(/must run upwards/);
  expect(() => drawChart(flowChart, { width: 60, height: 40 }, env)).toThrow(/no room/);
});

test("numbers keep their decimals and a true minus", () => {
  const y = { title: "Change (%)", start: -0.5, end: 0.5, ticks: [-0.5, 0, 0.5], decimals: 1 };
  const drawn = textsOf(drawChart({ ...flowChart, y, series: [] }, size, env)).map(({ text }) => text);
  expect(drawn).toEqual(expect.arrayContaining(["−0.5", "0.0", "0.5"]));
});
