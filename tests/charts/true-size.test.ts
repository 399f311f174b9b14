import fc from "fast-check";
import { expect, test } from "vitest";
import { drawTrueSize } from "../../src/charts/draw-true-size.ts";
import type { Drawing } from "../../src/charts/drawing.ts";
import type { DrawnLabel, TrueSize } from "../../src/sheet/content.ts";
import { polyline } from "../../src/sheet/drawing/true-size.ts";
import { makeTheme } from "../../src/theme/make-theme.ts";
import { fixedMeasure } from "../layout/fixed-measure.ts";

const env = { measure: fixedMeasure, colors: makeTheme({}).theme.colors };
const MM = 72 / 25.4;

const box = (width: number, height: number): TrueSize["shapes"][number] => ({
  steps: polyline(
    [
      [0, 0],
      [width, 0],
      [width, height],
      [0, height],
    ],
    true,
  ),
  stroke: { color: "#000000", width: 1, dash: [] },
});
const content = (width: number, height: number, labels: readonly DrawnLabel[] = []): TrueSize => ({
  shapes: [box(width, height)],
  labels,
  scaleBar: { length: 20, parts: 4, label: "20 mm" },
});

const points = ({ items }: Drawing) =>
  items.flatMap((item) =>
    item.kind === "path"
      ? item.d.flatMap((step) => {
          const numbers = step.slice(1) as number[];
          return numbers.flatMap((x, i) => (i % 2 === 0 ? [[x, numbers[i + 1]!] as const] : []));
        })
      : [],
  );
const texts = ({ items }: Drawing) => items.filter((item) => item.kind === "text");

// Definition: a millimetre is 72 ÷ 25.4 points.
test("a millimetre is a millimetre", () => {
  const [first] = drawTrueSize(content(40, 30), 500, env)!.items;
  const [a, b, c] = first?.kind === "path" ? first.d : [];
  expect(Number(b![1]) - Number(a![1])).toBeCloseTo(40 * MM, 2);
  expect(Number(c![2]) - Number(b![2])).toBeCloseTo(30 * MM, 2);
});

test("larger than the room: no drawing; only its words larger: they stand under it", () => {
  expect(drawTrueSize(content(180, 30), 175 * MM, env)).toBeUndefined();
  const label: DrawnLabel = { lines: ["Bore", "170.0 mm"], at: [170, 10] };
  const drawing = drawTrueSize(content(170, 30, [label]), 175 * MM, env)!;
  const words = texts(drawing).find(({ text }) => text === "Bore 170.0 mm")!;
  expect(words.y).toBeGreaterThan(30 * MM);
});

test("a label stands on its place where it fits there, else beside", () => {
  const label = (inside: number): DrawnLabel => ({ lines: ["Intake"], at: [20, 15], inside });
  expect(texts(drawTrueSize(content(40, 30, [label(30)]), 500, env)!)[0]!.x).toBeLessThan(40 * MM);
  expect(texts(drawTrueSize(content(40, 30, [label(3)]), 500, env)!)[0]!.x).toBeGreaterThan(40 * MM);
});

const size = fc.double({ min: 0.5, max: 120, noNaN: true });
const label = fc.record({
  lines: fc.array(fc.constantFrom("Seat 45°, 1.0 mm", "Lift 9.6 mm", "As received", "corner 6.5 mm"), {
    minLength: 1,
    maxLength: 4,
  }),
  x: fc.double({ min: 0, max: 1, noNaN: true }),
  y: fc.double({ min: 0, max: 1, noNaN: true }),
});

test("law: all of it inside its frame, finite, no words on others", () =>
  fc.assert(
    fc.property(size, size, fc.array(label, { maxLength: 12 }), (width, height, labels) => {
      const drawing = drawTrueSize(
        content(
          width,
          height,
          labels.map(({ lines, x, y }) => ({ lines, at: [x * width, y * height] as const })),
        ),
        496,
        env,
      )!;
      const slack = 0.01;
      for (const [x, y] of points(drawing)) {
        expect(Number.isFinite(x) && Number.isFinite(y)).toBe(true);
        expect(x >= -slack && x <= drawing.width + slack && y >= -slack && y <= drawing.height + slack).toBe(true);
      }
      const boxes = texts(drawing).map(({ text, x, y, size }) => ({
        x,
        y,
        width: fixedMeasure.width(text, "regular", size),
        top: y - size * 0.7,
      }));
      for (const [i, a] of boxes.entries()) {
        expect(
          a.x >= -slack && a.x + a.width <= drawing.width + slack && a.top >= -slack && a.y <= drawing.height + slack,
        ).toBe(true);
        for (const b of boxes.slice(i + 1))
          expect(a.x + a.width <= b.x || b.x + b.width <= a.x || a.y <= b.top || b.y <= a.top).toBe(true);
      }
    }),
    { seed: 11, numRuns: 60 },
  ));
