import { expect, test } from "vitest";
import { drawChart } from "../../src/charts/draw-chart.ts";
import type { BarChart } from "../../src/sheet/content.ts";
import {
  boundsOf,
  changeChart,
  env,
  middleOf,
  pathsOf,
  scalesOf,
  size,
  textOf,
  textsOf,
  words,
} from "./chart-samples.ts";

const drawing = drawChart(changeChart, size, env);
const scales = scalesOf(drawing, { y: changeChart.y, x: { start: 0, end: 4 } });

test("bars reach from zero to their value, in their category", () => {
  const bars = pathsOf(drawing, "bar").map(boundsOf);
  expect(bars).toHaveLength(4);
  for (const [i, { value }] of changeChart.bars.entries()) {
    const { x1, x2, y1, y2 } = bars[i]!;
    expect(scales.y(value < 0 ? y1 : y2)).toBeCloseTo(0, 2);
    expect(scales.y(value < 0 ? y2 : y1)).toBeCloseTo(value, 2);
    expect(scales.x((x1 + x2) / 2)).toBeCloseTo(i + 0.5, 3);
  }
});

test("hollow bars are outlined, full ones filled without an outline that would add to them", () => {
  const [hollow, , full] = pathsOf(drawing, "bar");
  expect(hollow).toMatchObject({ fill: env.colors.paper, stroke: { color: "#1f4e5f", width: 1 } });
  expect(full!.fill).toBe("#1f4e5f");
  expect(full!.stroke).toBeUndefined();
});

test("the base line is zero, not the panel's bottom", () => {
  expect(scales.y(scales.base.y1)).toBeCloseTo(0, 2);
});

test("labels stand beyond the error bar: over a gain, under a loss", () => {
  const gain = boundsOf(textOf(drawing, "+8.0"));
  const loss = boundsOf(textOf(drawing, "−3.0"));
  expect(scales.y(gain.y2)).toBeGreaterThan(9.5);
  expect(scales.y(loss.y1)).toBeLessThan(-4.5);
  const bar = middleOf(pathsOf(drawing, "bar")[2]!);
  expect(middleOf(textOf(drawing, "+8.0"))[0]).toBeCloseTo(bar[0], 2);
});

test("an error bar is seen on a full bar: paper behind its ink", () => {
  const bars = pathsOf(drawing, "error-bar").filter((item) => boundsOf(item).x1 === boundsOf(item).x2);
  expect(bars).toHaveLength(4);
  expect(bars.every(({ stroke }) => stroke!.color === env.colors.ink)).toBe(true);
  expect(pathsOf(drawing, "shape").filter(({ stroke }) => stroke?.color === env.colors.paper)).toHaveLength(2);
});

const cylinders: BarChart = {
  kind: "bar",
  x: { title: "Cylinder", categories: ["1", "2", "3", "4"] },
  y: { title: "Flow (cfm)", start: 0, end: 200, ticks: [0, 100, 200], decimals: 0 },
  groups: ["Intake", "Exhaust"],
  bars: ["1", "2", "3", "4"].flatMap((category) => [
    { category, group: "Intake", value: 180, color: "#1f4e5f", hollow: false, label: "180" },
    { category, group: "Exhaust", value: 130, color: "#8c8c8c", hollow: false, label: "130" },
  ]),
};

test("groups stand side by side and are named once", () => {
  const drawn = drawChart(cylinders, size, env);
  const bars = pathsOf(drawn, "bar").map(boundsOf);
  for (let i = 0; i < 8; i++)
    for (let j = 0; j < i; j++) expect(bars[i]!.x1 >= bars[j]!.x2 || bars[j]!.x1 >= bars[i]!.x2).toBe(true);
  expect(words(drawn).filter((text) => text === "Intake" || text === "Exhaust")).toEqual(["Intake", "Exhaust"]);
  expect(pathsOf(drawn, "shape").map(({ fill }) => fill)).toEqual(["#1f4e5f", "#8c8c8c"]);
});

test("labels too wide for their bars stand upright, and are left out where not even that fits", () => {
  const many = (count: number): BarChart => ({
    ...changeChart,
    x: { title: "Lift", categories: Array.from({ length: count }, (_, i) => String(i)) },
    bars: Array.from({ length: count }, (_, i) => ({
      category: String(i),
      value: 5,
      color: "#1f4e5f",
      hollow: false,
      label: "+5.0",
    })),
  });
  const labels = (count: number) => textsOf(drawChart(many(count), size, env)).filter(({ text }) => text === "+5.0");
  expect(labels(8).map(({ angle }) => angle)).toEqual(Array(8).fill(undefined));
  expect(labels(16).map(({ angle }) => angle)).toEqual(Array(16).fill(-90));
  expect(labels(40)).toEqual([]);
});

test("forty categories keep what fits of their names, evenly", () => {
  const categories = Array.from({ length: 40 }, (_, i) => (1 + i / 4).toFixed(2));
  const drawn = drawChart({ ...changeChart, x: { title: "Lift", categories }, bars: [] }, size, env);
  const shown = categories.map((name, i) => (words(drawn).includes(name) ? i : -1)).filter((i) => i >= 0);
  expect(shown.length).toBeGreaterThan(5);
  expect(new Set(shown.slice(1).map((at, i) => at - shown[i]!)).size).toBe(1);
});

test("in a narrow cell names are left out evenly, never cut short", () => {
  const lifts = Array.from({ length: 10 }, (_, i) => (0.05 * (i + 1)).toFixed(4));
  const cylinders = ["1 left", "1 right", "2 left", "2 right", "3 left", "3 right"];
  for (const categories of [lifts, lifts.map((lift) => lift.slice(0, 5)), cylinders])
    for (let width = 110; width <= 160; width += 2) {
      const drawn = drawChart({ ...changeChart, x: { title: "", categories }, bars: [] }, { width, height: 120 }, env);
      expect(words(drawn).filter((text) => text.includes("…"))).toEqual([]);
      const shown = categories.flatMap((name, i) => (words(drawn).includes(name) ? [i] : []));
      expect(shown.length).toBeGreaterThan(1);
      expect(new Set(shown.slice(1).map((at, i) => at - shown[i]!)).size).toBe(1);
    }
});

test("only a name that no place of the chart can hold is cut", () => {
  const named = (name: string) => ({ ...changeChart, x: { title: "", categories: [name] }, bars: [] });
  expect(words(drawChart(named("Cylinder"), { width: 110, height: 120 }, env))).toContain("Cylinder");
  expect(words(drawChart(named("C".repeat(90)), { width: 110, height: 120 }, env)).join(" ")).toMatch(/ C+… /);
});

test("a chart of no bars is its axes", () => {
  const drawn = drawChart({ ...changeChart, bars: [], x: { title: "Valve lift (mm)", categories: [] } }, size, env);
  expect(pathsOf(drawn, "bar")).toEqual([]);
  expect(words(drawn)).toContain("Change (%)");
});

test("a bar that the axis would cut, or that belongs nowhere, is our mistake", () => {
  const [bar] = changeChart.bars;
  const draw = (changed: Partial<BarChart>) => () => drawChart({ ...changeChart, ...changed }, size, env);
  expect(draw({ bars: [{ ...bar!, value: 16 }] })).toThrow(/outside the axis/);
  expect(draw({ y: { ...changeChart.y, start: 1, ticks: [5] } })).toThrow(/zero/);
  expect(draw({ bars: [{ ...bar!, category: "3" }] })).toThrow(/category/);
  expect(draw({ groups: ["a", "b"] })).toThrow(/group/);
});
