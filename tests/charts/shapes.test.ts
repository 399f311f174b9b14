import { expect, test } from "vitest";
import { compileShapes, leanRuntime } from "../../src/charts/compile-shapes.ts";
import { drawChart } from "../../src/charts/draw-chart.ts";
import { openShapes, parseShapes } from "../../src/charts/scenegraph.ts";
import { strictLogger } from "../../src/charts/vega-guards.ts";
import { changeChart, env, flowChart, freshShapes, size } from "./chart-samples.ts";

test("shapes compile without a warning, the same each time, and survive being written", () => {
  const json = JSON.stringify(compileShapes());
  expect(JSON.stringify(compileShapes())).toBe(json);
  const shapes = openShapes(parseShapes(json));
  for (const chart of [flowChart, changeChart])
    expect(drawChart(chart, size, { ...env, shapes })).toEqual(drawChart(chart, size, env));
});

test("a warning is a fault", () => {
  expect(() => strictLogger.warn("something was dropped")).toThrow("chart shape: something was dropped");
  expect(() => strictLogger.error("broken")).toThrow();
});

test("shapes that the build did not finish are refused", () => {
  expect(() => parseShapes("{}")).toThrow(/build again/);
  expect(() => parseShapes(JSON.stringify({ line: {} }))).toThrow(/build again/);
});

test("no chart's words, colours or sizes are in a shape", () => {
  const json = JSON.stringify(compileShapes());
  for (const word of ["Valve lift", "Finished", env.colors.accent, env.colors.grid]) expect(json).not.toContain(word);
});

test("what only a screen needs is left out of a shape, but for what another operator asks for", () => {
  const runtime = {
    operators: [
      { id: 1, type: "encode", params: { parent: { $ref: 4 } } },
      { id: 2, type: "bound", params: { pulse: { $ref: 1 } } },
      { id: 3, type: "render", params: { pulse: { $ref: 2 } } },
      { id: 4, type: "sieve" },
    ],
  };
  expect(leanRuntime(runtime).operators.map(({ id }) => id)).toEqual([1, 4]);
  for (const shape of Object.values(compileShapes()) as unknown as (typeof runtime)[])
    expect(shape.operators.map(({ type }) => type)).not.toContain("bound");
});

test("views filled again draw curves in the order of their series", () => {
  const swapped = { ...flowChart, series: flowChart.series.toReversed() };
  for (const chart of [flowChart, swapped, flowChart])
    expect(drawChart(chart, size, env)).toEqual(drawChart(chart, size, { ...env, shapes: freshShapes() }));
});
