import { parse, type Spec } from "vega";
import { expect, test, vi } from "vitest";
import { openShape, type RuntimeShape } from "../../src/charts/scenegraph.ts";
import { fixedMeasure } from "../layout/fixed-measure.ts";

const PLOT = { x: 0, y: 0, width: 100, height: 100 };
const shapeOf = (spec: Spec) => JSON.parse(JSON.stringify(parse(spec))) as RuntimeShape;
const draw = (spec: Spec, signals: Record<string, unknown> = {}, rows: Record<string, object[]> = {}) =>
  openShape(shapeOf(spec))({ rows, signals }, PLOT, fixedMeasure);

test.each(["https://example.org/a.json", "file:///etc/hostname", "/etc/hostname"])(
  "a shape that names %s gets nothing from there, and no chart is drawn",
  (url) => {
    const fetched = vi.spyOn(globalThis, "fetch");
    expect(() => draw({ data: [{ name: "a", url }], marks: [] })).toThrow(/loads nothing/);
    expect(fetched).not.toHaveBeenCalled();
  },
);

test("a warning of Vega is a fault", () => {
  const spec: Spec = { data: [{ name: "a", values: [{ x: 1 }] }], signals: [{ name: "s", update: "warn('odd')" }] };
  expect(() => draw(spec)).toThrow(/chart shape: .*odd/);
});

test("texts that look like expressions are rows and signals like any other: nothing runs them", () => {
  const hostile = "(globalThis.ran = true)";
  const spec: Spec = {
    signals: [{ name: "title", value: "" }],
    data: [{ name: "rows" }],
    marks: [
      {
        type: "text",
        name: "axis",
        from: { data: "rows" },
        encode: { update: { text: { field: "name" } } },
      },
    ],
  };
  const items = draw(spec, { title: hostile }, { rows: [{ name: hostile }, { name: "datum.name" }] });
  expect(items.map((item) => item.kind === "text" && item.text)).toEqual([hostile, "datum.name"]);
  expect("ran" in globalThis).toBe(false);
});
