import { expect, test } from "vitest";
import { layoutSheet } from "../../src/layout/layout-sheet.ts";
import { largestImageSizes } from "../../src/layout/page.ts";
import { dummyDraw, dummySheet } from "./dummy-sheet.ts";
import { fixedMeasure } from "./fixed-measure.ts";

const SIZES = new Map([
  ["lying", { width: 400, height: 300 }],
  ["standing", { width: 300, height: 400 }],
  ["wide", { width: 3000, height: 400 }],
]);
const LIVE = 493.2;

/** Pictures of those names, 190 pt high at most, as they stand on the page. */
function set(...names: readonly string[]) {
  const pictures = names.map((image, i) => ({ image, alt: "a", caption: `Picture ${i + 1}` }));
  const block = {
    name: "photos",
    parts: [{ kind: "pictures", pictures, height: 190 }],
    split: true,
    priority: 20,
  } as const;
  const sheet = { ...dummySheet(), rows: [{ cells: [{ block, from: 0, span: 6 }] }] };
  const { pages } = layoutSheet(sheet, {
    measure: fixedMeasure,
    draw: dummyDraw,
    drawTrueSize: () => undefined,
    images: SIZES,
  });
  const items = pages.flatMap((page) => page.items).filter((item) => item.block === "photos");
  const images = items.filter((item) => item.kind === "image");
  const left = Math.min(...images.map(({ x }) => x));
  return { pages, images, captions: items.filter((item) => item.kind === "text"), left };
}

test("two lying pictures fill a row, as wide as the page, of one height", () => {
  const { images, left } = set("lying", "lying", "lying", "lying");
  expect(new Set(images.map(({ y }) => y)).size).toBe(2);
  expect(images[1]!.x + images[1]!.width - left).toBeCloseTo(LIVE, 1);
  expect(images[0]!.width / images[0]!.height).toBeCloseTo(4 / 3, 6);
});
test("a standing one is no taller than asked for; three of them share a row", () => {
  expect(set("standing").images[0]!.height).toBeCloseTo(190, 6);
  const { images } = set("standing", "standing", "standing");
  expect(new Set(images.map(({ y }) => y)).size).toBe(1);
  for (const { width, height } of images) expect(width / height).toBeCloseTo(3 / 4, 6);
});
test("each caption stands under its own picture, on one line with its neighbour's", () => {
  const { images, captions } = set("lying", "standing");
  expect(captions.map(({ x }) => x)).toEqual(images.map(({ x }) => x));
  expect(captions[0]!.y).toBe(captions[1]!.y);
  expect(captions[0]!.y).toBeGreaterThan(images[0]!.y + images[0]!.height);
  expect(images[0]!.height).toBeCloseTo(images[1]!.height, 6);
});
test("a very wide one has a row to itself", () =>
  expect(set("wide", "standing").images[0]!.width).toBeCloseTo(LIVE, 1));
test("a picture shown twice is measured at its largest", () => {
  const { pages, images } = set("lying", "lying", "lying");
  const largest = Math.max(...images.map(({ width }) => width));
  expect(largestImageSizes(pages).get("lying")!.width).toBe(largest);
  expect(images[2]!.width).not.toBe(images[0]!.width);
});
