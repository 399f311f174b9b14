import fc from "fast-check";
import { expect, test } from "vitest";
import { fitText } from "../../src/charts/chart-text.ts";
import { parseFont } from "../../src/charts/recorder.ts";
import { formatTick, thinLabels } from "../../src/charts/tick-labels.ts";

const width = (text: string) => [...text].length;

test("axis numbers: decimals, a true minus, no minus before zero", () => {
  expect(formatTick(2.5, 1)).toBe("2.5");
  expect(formatTick(-2.5, 1)).toBe("−2.5");
  expect(formatTick(-0.04, 1)).toBe("0.0");
  expect(formatTick(-0, 0)).toBe("0");
  expect(formatTick(1000, 0)).toBe("1000");
});

test("labels are thinned evenly until none touch, the first always staying", () => {
  const labels = ["10", "20", "30", "40", "50"];
  expect(thinLabels(labels, [0, 10, 20, 30, 40], width)).toEqual(labels);
  expect(thinLabels(labels, [0, 4, 8, 12, 16], width)).toEqual(["10", "", "30", "", "50"]);
  expect(thinLabels(labels, [0, 0, 0, 0, 0], width)).toEqual(["10", "", "", "", ""]);
  expect(thinLabels([], [], width)).toEqual([]);
});

test("a text is broken at spaces and cut with an ellipsis only where it must be", () => {
  expect(fitText("As received", 20, 2, width)).toEqual({ lines: ["As received"], width: 11, cut: false });
  expect(fitText("As received", 9, 2, width)).toEqual({ lines: ["As", "received"], width: 8, cut: false });
  expect(fitText("As it was received", 9, 2, width)).toEqual({
    lines: ["As it was", "received"],
    width: 9,
    cut: false,
  });
  expect(fitText("As it was received here", 9, 2, width)).toEqual({
    lines: ["As it was", "received…"],
    width: 9,
    cut: true,
  });
  expect(fitText("Finished", 5, 1, width).lines).toEqual(["Fini…"]);
});

test("fitted text keeps to its width and lines, and loses nothing unless it says so", () =>
  fc.assert(
    fc.property(
      fc.string({ maxLength: 60, unit: "grapheme" }),
      fc.integer({ min: 1, max: 30 }),
      fc.integer({ min: 1, max: 3 }),
      (text, limit, most) => {
        const { lines, cut, width: widest } = fitText(text, limit, most, width);
        expect(lines.length).toBeLessThanOrEqual(most);
        expect(widest).toBeLessThanOrEqual(limit);
        if (!cut) expect(lines.join(" ")).toBe(text.trim().split(/\s+/u).join(" "));
      },
    ),
  ));

test("fonts are read from Canvas' font string", () => {
  expect(parseFont("8.5px sans-serif")).toEqual(["regular", 8.5]);
  expect(parseFont("600 11px x")).toEqual(["semibold", 11]);
  expect(parseFont("500 11px x")).toEqual(["medium", 11]);
  expect(() => parseFont("italic 1em x")).toThrow();
});
