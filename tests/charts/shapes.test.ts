import { expect, test } from "vitest";
import { compileShapes } from "../../src/charts/compile-shapes.ts";
import { drawChart } from "../../src/charts/draw-chart.ts";
import { readShapes } from "../../src/charts/shapes.ts";
import { strictLogger } from "../../src/charts/strict-logger.ts";
import { changeChart, env, flowChart, size } from "./chart-samples.ts";

test("shapes compile without a warning, the same each time, and survive being written", () => {
  const json = JSON.stringify(compileShapes());
  expect(JSON.stringify(compileShapes())).toBe(json);
  const shapes = readShapes(json);
  for (const chart of [flowChart, changeChart])
    expect(drawChart(chart, size, { ...env, shapes })).toEqual(drawChart(chart, size, env));
});

test("a warning is a fault", () => {
  expect(() => strictLogger.warn("something was dropped")).toThrow("chart shape: something was dropped");
  expect(() => strictLogger.error("broken")).toThrow();
});

test("shapes that the build did not finish are refused", () => {
  expect(() => readShapes("{}")).toThrow(/build again/);
  expect(() => readShapes(JSON.stringify({ line: {} }))).toThrow(/build again/);
});

test("no chart's words, colours or sizes are in a shape", () => {
  const json = JSON.stringify(compileShapes());
  for (const word of ["Valve lift", "Finished", env.colors.accent, env.colors.grid]) expect(json).not.toContain(word);
});
