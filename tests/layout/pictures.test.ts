import { describe, expect, test } from "vitest";
import { layoutSheet } from "../../src/layout/layout-sheet.ts";
import { drawnSizes, type Page } from "../../src/layout/page.ts";
import type { Hero, Part, Picture } from "../../src/sheet/content.ts";
import { dummyDraw, dummySheet } from "./dummy-sheet.ts";
import { fixedMeasure } from "./fixed-measure.ts";

const SIZES = new Map([
  ["lying", { width: 400, height: 300 }],
  ["standing", { width: 300, height: 400 }],
  ["wide", { width: 3000, height: 400 }],
]);
const LIVE = 493.2;

/** Pages of a sheet that holds one part. */
function layOut(name: string, part: Part) {
  const block = { name, parts: [part], split: true, priority: 20 } as const;
  const sheet = { ...dummySheet(), rows: [{ cells: [{ block, from: 0, span: 6 }] }] };
  const env = { measure: fixedMeasure, draw: dummyDraw, drawTrueSize: () => undefined, images: SIZES };
  return layoutSheet(sheet, env).pages;
}

/** Pictures of those names, 190 pt high at most, as they stand on the page. */
function set(...names: readonly string[]) {
  const pictures = names.map((image, i) => ({ image, alt: "a", caption: `Picture ${i + 1}` }));
  const pages = layOut("photos", { kind: "pictures", pictures, height: 190 });
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
  expect(drawnSizes(pages).get("lying")!.width).toBe(largest);
  expect(images[2]!.width).not.toBe(images[0]!.width);
});

describe("a photograph beside title and facts", () => {
  const hero = (image: string, more: Partial<Hero & Picture>): Hero => ({
    kind: "hero",
    picture: { image, alt: "a", ...(more.focus ? { focus: more.focus } : {}) },
    uprightAllowed: more.uprightAllowed ?? false,
    title: { text: "Head" },
    facts: [{ label: "Head", value: "Stamped 3" }],
  });
  const placed = (part: Hero) =>
    layOut("hero", part).flatMap(({ items }) => items.flatMap((item) => (item.kind === "image" ? [item] : [])))[0];

  test.each([
    [[0.5, 0.5], 0.5],
    [[0.45, 0.5], 0.45],
    // It cannot be brought to the middle without white at the side: half the frame's 169.1 of the picture's 795 pt.
    [[0, 0.5], 0.106],
    [[1, 0.5], 0.894],
  ] as const)("its focus %j stands as near to the middle as it can", (focus, middle) => {
    const { whole, width } = placed(hero("wide", { focus }))!;
    expect((width / 2 - whole!.x) / whole!.width).toBeCloseTo(middle, 3);
    expect(whole!.x).toBeLessThanOrEqual(0);
    expect(whole!.x + whole!.width).toBeGreaterThanOrEqual(width - 1e-9);
  });
  test("an upright one stands there only where the job says so", () => {
    expect(placed(hero("standing", {}))).toBeUndefined();
    expect(placed(hero("standing", { uprightAllowed: true }))).toBeDefined();
  });
  test("what pages show of it is all that is measured, unless it stands elsewhere too", () => {
    const [page] = layOut("hero", hero("wide", {}));
    const [image] = page!.items.filter((item) => item.kind === "image");
    const { width, height, seen } = drawnSizes([page!]).get("wide")!;
    expect([seen!.width, seen!.height]).toEqual([image!.width, image!.height]);
    expect(width).toBeGreaterThan(seen!.width);
    expect(height).toBeCloseTo(seen!.height, 6);
    const other = { ...page!, items: [{ ...image!, whole: undefined }] } as unknown as Page;
    expect(drawnSizes([page!, other]).get("wide")!.seen).toBeUndefined();
  });
});
