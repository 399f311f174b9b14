import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type LayoutResult, layoutSheet } from "../../src/layout/layout-sheet.ts";
import { space } from "../../src/layout/type-sizes.ts";
import type { BlockContent, Grow, Part, Sheet, SheetRow } from "../../src/sheet/content.ts";
import { boxOf } from "./boxes.ts";
import { dummyDraw, dummySheet } from "./dummy-sheet.ts";
import { fixedMeasure } from "./fixed-measure.ts";
import { brokenLaws } from "./laws.ts";

const env = { measure: fixedMeasure, draw: dummyDraw, drawTrueSize: () => undefined, images: new Map() };
const base = dummySheet({ paper: "A4" });
/** The room for blocks on A4 [pt]. */
const ROOM = 841.89 - 64 - 20;
const LEAD = 14;

const lines = (count: number, word = "word"): Part => ({
  kind: "paragraph",
  style: "body",
  text: Array.from({ length: count }, () => word).join("\n"),
});
const axis = { title: "Lift", start: 0, end: 1, ticks: [0, 1], decimals: 0 };
const chart = (grow: Grow, count = 1): Part => ({
  kind: "charts",
  height: grow[0],
  grow,
  charts: Array.from({ length: count }, () => ({
    title: "Flow",
    alt: "a",
    chart: { kind: "line", x: axis, y: axis, series: [] },
  })),
});
const block = (name: string, part: Part | readonly Part[], more: Partial<BlockContent> = {}): BlockContent => ({
  name,
  parts: [part].flat(),
  split: true,
  priority: 50,
  ...more,
});
const row = (...blocks: readonly BlockContent[]): SheetRow => ({
  cells: blocks.map((one, i) => ({ block: one, from: (6 / blocks.length) * i, span: 6 / blocks.length })),
});
const newPage = (of: SheetRow, pullUp = false): SheetRow => ({ ...of, newPage: true, ...(pullUp ? { pullUp } : {}) });
const sheet = (...rows: readonly SheetRow[]): Sheet => ({ ...base, rows });
const lay = (...rows: readonly SheetRow[]) => layoutSheet(sheet(...rows), env);
/** Names of the blocks on each page, in order. */
const namesOn = ({ pages }: LayoutResult) =>
  pages.map(({ items }) => [...new Set(items.map((item) => item.block))].filter((name) => name !== "furniture"));
const heightsOf = ({ pages }: LayoutResult) =>
  pages.map(({ items }) => items.flatMap((item) => (item.kind === "drawing" ? item.drawing.height : [])));

describe("what a page has left", () => {
  test("goes to white between rows first, then to plots alike, then to white again", () => {
    const title = 14 + 3;
    const rowsOf = (grow: Grow) => [
      row(block("a", chart(grow))),
      row(block("b", chart([80, 400]))),
      row(block("c", lines(2))),
    ];
    const used = 2 * title + 100 + 80 + 2 * LEAD;
    // Each plot takes half of what two gaps of 12 leave.
    const each = (ROOM - used - 2 * space.rowUsual) / 2;
    const both = lay(...rowsOf([100, 600]));
    expect(heightsOf(both)[0]!.map((height) => height.toFixed(1))).toEqual([
      (100 + each).toFixed(1),
      (80 + each).toFixed(1),
    ]);
    expect(both.fills).toEqual([{ share: expect.closeTo(1, 3), place: "first" }]);
    // Where plots have had enough, gaps widen to their most, and the rest stays at the foot.
    const small = layoutSheet(sheet(row(block("a", chart([100, 150]))), row(block("c", lines(2)))), env);
    expect(heightsOf(small)).toEqual([[150]]);
    expect(small.fills[0]).toMatchObject({
      share: expect.closeTo((title + 150 + 2 * LEAD + 20) / ROOM, 4),
      reason: "grown",
    });
  });
  test("a plot grows for nothing up to its taller neighbour, then costs the row", () => {
    const beside = (count: number) =>
      lay(row(block("a", chart([60, 90])), block("t", lines(20))), row(block("c", lines(count))));
    const tight = Math.floor((ROOM - 20 * LEAD - space.row) / LEAD);
    expect(heightsOf(beside(tight))[0]).toEqual([90]);
    expect(beside(tight).pages).toHaveLength(1);
  });
  test("a page whose last row goes on overleaf keeps its white", () => {
    const laid = lay(row(block("a", lines(2))), row(block("b", lines(80, "long"))));
    const [first, second] = laid.pages[0]!.items.filter((item) => item.kind === "text").map((item) => item.y);
    expect(second! - first!).toBeCloseTo(LEAD, 2);
    const b = laid.pages[0]!.items.find((item) => item.block === "b")!;
    expect(b.kind === "text" && b.y - second!).toBeCloseTo(LEAD + space.row, 2);
    expect(laid.fills[0]!.reason).toBe("divided");
  });
});

describe("an over-full page", () => {
  const full = Math.floor(ROOM / LEAD);
  test("lets the cheapest give way, and what stands in for it come", () => {
    const rows = (count: number) => [
      row(block("text", lines(count)), block("outline", lines(3), { gives: 1 })),
      row(block("hero", lines(10), { gives: 2 })),
      row(block("facts", lines(2), { without: "hero" })),
      newPage(row(block("photos", lines(30), { without: "hero" }))),
      row(block("rest", lines(30), { with: "hero" })),
    ];
    expect(namesOn(lay(...rows(30)))).toEqual([["text", "outline", "hero"], ["rest"]]);
    // Out of 54 lines, hero and a gap take ten and a half.
    expect(namesOn(lay(...rows(full - 11)))).toEqual([["text", "outline", "hero"], ["rest"]]);
    expect(namesOn(lay(...rows(full - 10)))).toEqual([["text", "facts"], ["photos"]]);
  });
  test("lets its neighbours have the room of what gave way", () => {
    const words = Array.from({ length: 400 }, (_, i) => `word${i}`).join(" ");
    const wide = block("text", { kind: "paragraph", style: "body", text: words });
    const laid = lay(row(wide, block("outline", lines(60), { gives: 1 })));
    expect(namesOn(laid)).toEqual([["text"]]);
    const right = Math.max(
      ...laid.pages[0]!.items.filter(({ block: of }) => of === "text").map((item) => boxOf(item).right),
    );
    expect(right).toBeGreaterThan(400);
  });
  test("sends the end of the work list over at full width, then whole rows, and nothing else", () => {
    const items = Array.from({ length: 12 }, (_, i) => ({ text: `item ${i}` }));
    const list = block(
      "work",
      [
        { kind: "heading", level: 2, text: "Work" },
        { kind: "list", items },
      ],
      { goesOn: true },
    );
    const rows = (count: number) => [
      row(block("pair", lines(count), { split: false })),
      row(list, block("cautions", lines(4), { split: false })),
      row(block("key", lines(3), { overleaf: 1 })),
      row(block("sign", lines(2), { overleaf: 2 })),
      newPage(row(block("readings", lines(30)))),
    ];
    const on = (count: number) => namesOn(lay(...rows(count)));
    expect(on(30)).toEqual([["pair", "work", "cautions", "key", "sign"], ["readings"]]);
    expect(on(38)).toEqual([
      ["pair", "work", "cautions", "key", "sign"],
      ["work", "readings"],
    ]);
    expect(on(48)).toEqual([
      ["pair", "work", "cautions"],
      ["work", "key", "sign", "readings"],
    ]);
    const texts = lay(...rows(48)).pages.flatMap(({ items: all }) =>
      all.flatMap((item) => (item.kind === "text" && item.block === "work" ? item.text : [])),
    );
    expect(texts.filter((text) => text.startsWith("item"))).toEqual(items.map(({ text }) => text));
    expect(texts).toContain("Work (continued)");
  });
  test("an optional block counts the pages of its own group only", () => {
    const over = row(block("over", lines(2 * full - 10)));
    const laid = lay(over, newPage(row(block("second", lines(30)))), row(block("may", lines(40), { optional: true })));
    expect(namesOn(laid)).toEqual([["over"], ["over"], ["second"]]);
    const small = lay(over, newPage(row(block("second", lines(30)))), row(block("may", lines(10), { optional: true })));
    expect(namesOn(small)[2]).toEqual(["second", "may"]);
  });
});

describe("a page with room", () => {
  test("takes the head of the next where that may come, and only while it fits", () => {
    const next = (pullUp: boolean) => [
      row(block("a", lines(20))),
      newPage(row(block("readings", lines(20), { split: false })), pullUp),
      row(block("sizes", lines(32))),
    ];
    expect(namesOn(lay(...next(false)))).toEqual([["a"], ["readings", "sizes"]]);
    expect(namesOn(lay(...next(true)))).toEqual([["a", "readings"], ["sizes"]]);
  });
  test("takes all of a last page that would be nearly empty", () => {
    expect(namesOn(lay(row(block("a", lines(20))), newPage(row(block("b", lines(10))))))).toEqual([["a", "b"]]);
    expect(namesOn(lay(row(block("a", lines(20))), newPage(row(block("b", lines(33))))))).toEqual([["a"], ["b"]]);
    expect(namesOn(lay(row(block("a", lines(50))), newPage(row(block("b", lines(10))))))).toEqual([["a"], ["b"]]);
  });
});

describe("any sheet of growing blocks", () => {
  const grow = fc
    .tuple(fc.integer({ min: 60, max: 200 }), fc.integer({ min: 0, max: 300 }))
    .map(([least, more]): Grow => [least, least + more]);
  const part = fc.oneof(
    grow.map((one) => chart(one)),
    fc.integer({ min: 1, max: 30 }).map((count) => lines(count)),
  );
  const options = fc.record(
    {
      optional: fc.constant(true),
      gives: fc.integer({ min: 1, max: 3 }),
      overleaf: fc.integer({ min: 1, max: 2 }),
      goesOn: fc.constant(true),
    },
    { requiredKeys: [] },
  );
  const cell = fc.tuple(part, fc.boolean(), fc.oneof({ weight: 3, arbitrary: fc.constant({}) }, options));
  const rows = fc.array(
    fc.record({
      cells: fc.array(cell, { minLength: 1, maxLength: 3 }),
      newPage: fc.oneof({ weight: 4, arbitrary: fc.constant(false) }, fc.constant(true)),
      pullUp: fc.boolean(),
    }),
    { minLength: 1, maxLength: 9 },
  );
  type Drawn = typeof rows extends fc.Arbitrary<infer T> ? T : never;
  const sheetOf = (drawn: Drawn) =>
    sheet(
      ...drawn.map(({ cells, newPage: turns, pullUp }, r): SheetRow => {
        const blocks = cells.map(([own, split, more], c) => block(`block-${r}-${c}`, own, { split, ...more }));
        return { ...row(...blocks), newPage: turns, pullUp };
      }),
    );

  test("nothing overlaps or is lost or doubled; it ends, and each page is full or says why not", () =>
    fc.assert(
      fc.property(rows, (drawn) => {
        const made = sheetOf(drawn);
        const laid = layoutSheet(made, env);
        expect(laid.diagnostics).toEqual([]);
        const on = namesOn(laid).flat();
        const gone = made.rows.flatMap(({ cells }) =>
          cells.flatMap(({ block: { name, optional, gives } }) =>
            on.includes(name) || !(optional || gives) ? [] : name,
          ),
        );
        const kept = {
          ...made,
          rows: made.rows.map((one) => ({
            ...one,
            cells: one.cells.filter(({ block: { name } }) => !gone.includes(name)),
          })),
        };
        expect(brokenLaws(kept, laid)).toEqual([]);
        laid.pages.forEach((page, p) => {
          const fill = laid.fills[p]!;
          const bottom = Math.max(
            0,
            ...page.items.filter((item) => item.block !== "furniture").map((item) => boxOf(item).bottom),
          );
          expect(bottom).toBeLessThanOrEqual(841.89 - 32 - 20 + 0.02);
          expect(fill.share).toBeLessThanOrEqual(1 + 1e-9);
          if (fill.reason === undefined) expect((1 - fill.share) * ROOM).toBeLessThanOrEqual(0.11);
        });
      }),
      { numRuns: 80, seed: 20_261_130 },
    ));

  test("plots of one page grow alike, each within its limits, and to the most before white is left", () =>
    fc.assert(
      fc.property(fc.array(grow, { minLength: 1, maxLength: 4 }), fc.integer({ min: 1, max: 12 }), (limits, count) => {
        const laid = lay(...limits.map((one, i) => row(block(`b${i}`, chart(one)))), row(block("t", lines(count))));
        if (laid.pages.length > 1) return;
        const extra = heightsOf(laid)[0]!.map((height, i) => {
          const [least, most] = limits[i]!;
          expect(height).toBeGreaterThanOrEqual(least);
          expect(height).toBeLessThanOrEqual(most);
          return { by: height - least, most: most - least };
        });
        const largest = Math.max(...extra.map(({ by }) => by));
        for (const { by, most } of extra) expect(by).toBeCloseTo(Math.min(largest, most), 6);
        if (laid.fills[0]!.reason === "grown") for (const { by, most } of extra) expect(by).toBeCloseTo(most, 6);
      }),
      { numRuns: 80, seed: 20_261_130 },
    ));
});
