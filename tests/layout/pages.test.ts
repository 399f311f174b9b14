import { createHash } from "node:crypto";
import fc from "fast-check";
import { expect, test } from "vitest";
import type { DrawingItem } from "../../src/charts/drawing.ts";
import { layoutSheet } from "../../src/layout/layout-sheet.ts";
import type { Page, PlacedItem, Tag } from "../../src/layout/page.ts";
import type { LayoutEnv } from "../../src/layout/setting.ts";
import type { Sheet } from "../../src/sheet/content.ts";
import { expectPinned } from "../pinned.ts";
import { dummyDraw, dummySheet } from "./dummy-sheet.ts";
import { everyPart, plainerParts, tooMuch } from "./every-part.ts";
import { fixedMeasure } from "./fixed-measure.ts";
import { pictures, sheetsOf } from "./random-sheets.ts";

/** Drawings at true size come out as wide as their scale bar is long. */
const env: LayoutEnv = {
  measure: fixedMeasure,
  draw: (chart, size, { labelRoom }) => {
    const drawing = dummyDraw(chart, size);
    return labelRoom === undefined ? drawing : { ...drawing, items: drawing.items.slice(0, 1 + labelRoom) };
  },
  drawTrueSize: ({ scaleBar: { length } }, room) =>
    length > room ? undefined : { width: length, height: length / 2, items: [] },
  images: pictures,
};
const withRoom: LayoutEnv = {
  ...env,
  labelRoom: (chart) => (chart.kind === "bar" ? 1 : 0),
  leastChart: { width: 100, height: 90, secondScale: 20 },
};

const hundredths = (value: number) => `${Math.round(value * 100) / 100}`;
const all = (...values: readonly number[]) => values.map(hundredths).join(" ");
const tagged = (tag: Tag) => JSON.stringify(tag);

function drawn(item: DrawingItem): string {
  return JSON.stringify(item, (_, value) => (typeof value === "number" ? Number(hundredths(value)) : value));
}

function lineOf(item: PlacedItem): string {
  const end = `${item.block} ${tagged(item.tag)}`;
  switch (item.kind) {
    case "text": {
      const { x, y, width, size, weight, color, link = "", text } = item;
      return `text ${all(x, y, width, size)} ${weight} ${color} ${link} ${JSON.stringify(text)} ${end}`;
    }
    case "rule":
      return `rule ${all(item.x1, item.y1, item.x2, item.y2, item.width)} ${item.color} ${end}`;
    case "box":
      return `box ${all(item.x, item.y, item.width, item.height)} ${item.fill} ${end}`;
    case "image":
      return `image ${all(item.x, item.y, item.width, item.height)} ${item.image} ${end}`;
    case "drawing": {
      const { width, height, items } = item.drawing;
      return `drawing ${all(item.x, item.y, width, height)} ${items.map(drawn).join(" ")} ${end}`;
    }
  }
}

const linesOf = (pages: readonly Page[]) =>
  pages.flatMap(({ width, height, items }, p) => [`page ${p + 1}: ${all(width, height)}`, ...items.map(lineOf)]);
const toldOf = (sheet: Sheet, of: LayoutEnv) => {
  const { pages, diagnostics } = layoutSheet(sheet, of);
  return [
    ...diagnostics.map(({ severity, code, message, hint = "" }) => `${severity} ${code}: ${message}; ${hint}`),
    ...linesOf(pages),
  ];
};

/** Places to a hundredth of a point, each character half as wide as the type is high: anyone can check them by counting. */
test.each([
  ["dummy", dummySheet({ banner: "DRAFT" }), env],
  ["every-part", everyPart(), env],
  ["every-part-with-least-sizes", { ...everyPart(), rows: everyPart().rows.slice(5, 6) }, withRoom],
  ["plainer-parts", plainerParts(), env],
  ["plainer-parts-with-least-sizes", { ...plainerParts(), rows: plainerParts().rows.slice(-4) }, withRoom],
  ["too-much", tooMuch(), env],
] as const)("%s: every item stands where it stood", (name, sheet, of) => {
  expectPinned(new URL(`pages/${name}.txt`, import.meta.url), toldOf(sheet, of));
});

test("places are whole hundredths of a point, of rules too, and no item has a place that it has no use for", () => {
  const items = layoutSheet(everyPart(), env).pages.flatMap((page) => page.items);
  for (const item of items) {
    const places = item.kind === "rule" ? [item.x1, item.y1, item.x2, item.y2] : [item.x, item.y];
    expect(places).toEqual(places.map((place) => Number(place.toFixed(2))));
    expect("x" in item).toBe(item.kind !== "rule");
  }
});

/** One line a sheet: its counts of pages and items, and a digest of all positions. */
test("forty sheets of anything come out as they did", () => {
  const sheets = fc.sample(sheetsOf(3), { numRuns: 40, seed: 20_260_315 });
  const lines = sheets.map((sheet, n) => {
    const told = toldOf(sheet, n % 2 ? env : withRoom);
    const digest = createHash("sha256").update(told.join("\n")).digest("hex").slice(0, 16);
    return `sheet ${n}: ${told.filter((line) => line.startsWith("page ")).length} pages, ${told.length} lines, ${digest}`;
  });
  expectPinned(new URL("pages/random.txt", import.meta.url), lines);
  expect(new Set(lines.map((line) => line.slice(-16))).size).toBeGreaterThan(35);
});
