import { describe, expect, test } from "vitest";
import { assertFinite } from "../../src/layout/assert-finite.ts";
import { columnBlock, type Region, rowBlock } from "../../src/layout/block.ts";
import { type FlowBox, type Frame, type RepeatedHead, splitFlowBox } from "../../src/layout/flow-box.ts";
import { missingGlyphs } from "../../src/layout/missing-glyphs.ts";
import { drawnSizes, type Page, type PlacedItem } from "../../src/layout/page.ts";
import { itemsOf, type PageFrame, paginate } from "../../src/layout/paginate.ts";
import { roomShortage } from "../../src/layout/parts/charts.ts";
import { lineBoxes } from "../../src/layout/set-text.ts";
import { grid } from "../../src/layout/type-sizes.ts";
import type { Part, Sheet } from "../../src/sheet/content.ts";
import { dummySheet } from "./dummy-sheet.ts";
import { fixedMeasure } from "./fixed-measure.ts";

const tag = { kind: "artifact" } as const;
/** A box is as good as any item: its block's name says which slab it is. */
const box = (block: string, y = 0): PlacedItem => ({ kind: "box", x: 0, y, width: 1, height: 1, fill: "", tag, block });
const slab = (name: string, more: Partial<FlowBox> = {}): FlowBox => ({
  height: 10,
  items: [box(name)],
  gap: 2,
  tie: false,
  ...more,
});
const at = (height: number, more: Partial<Region> = {}): Region => ({ height, fresh: false, pressed: false, ...more });
const placed = (frame: Frame | null) =>
  frame?.items.map((item) => `${item.block}@${item.kind === "box" ? item.y : ""}`).join(" ");
/** What a column puts on a page so high, and whether something is left. */
const filled = (slabs: readonly FlowBox[], region: Region, split = true) => {
  const { frame, rest } = columnBlock(slabs, split).fill(region);
  return [placed(frame), rest !== null];
};

describe("a column, each slab 10 high with 2 above it", () => {
  const three = [slab("a"), slab("b"), slab("c")];
  test("the first has no space above it; what fits to the last bit fits", () => {
    expect(filled(three, at(34))).toEqual(["a@0 b@12 c@24", false]);
    expect(filled(three, at(33.99))).toEqual(["a@0 b@12", true]);
    expect(filled(three, at(10))).toEqual(["a@0", true]);
    expect(filled(three, at(9.99))).toEqual([undefined, true]);
    expect(columnBlock(three, true).fill(at(34)).frame!.height).toBe(34);
  });
  test("one that stays whole waits, unless it stands on a fresh page or would leave one mostly empty", () => {
    expect(filled(three, at(33), false)).toEqual([undefined, true]);
    expect(filled(three, at(33, { fresh: true }), false)).toEqual(["a@0 b@12", true]);
    expect(filled(three, at(33, { pressed: true }), false)).toEqual(["a@0 b@12", true]);
    // What goes on keeps together too.
    expect(
      columnBlock(three, false)
        .fill(at(33, { fresh: true }))
        .rest!.fill(at(9)).frame,
    ).toBeNull();
  });
  test("ties hold where a page is half full without them, the loose ones give way before the others", () => {
    const tied = [slab("a"), slab("b", { tie: true }), slab("c")];
    expect(filled(tied, at(33))).toEqual(["a@0", true]);
    // 10 is no more than half of 33.
    expect(filled(tied, at(33, { fresh: true }))).toEqual(["a@0 b@12", true]);
    expect(filled(tied, at(19.99, { fresh: true }))).toEqual(["a@0", true]);
    const loose = [
      slab("a", { tie: true }),
      slab("b", { tie: true, loose: true }),
      slab("c", { tie: true }),
      slab("d"),
    ];
    expect(filled(loose, at(34, { fresh: true }))).toEqual(["a@0 b@12", true]);
    expect(filled(loose, at(34))).toEqual([undefined, true]);
    // 22 is exactly half, so the loose tie alone is not enough.
    expect(filled(loose, at(44, { fresh: true }))).toEqual(["a@0 b@12 c@24", true]);
  });
  test("a heading is never the last, unless nothing else is there", () => {
    const headed = [slab("a", { tie: true }), slab("h", { tie: true, heading: true }), slab("c")];
    expect(filled(headed, at(33, { fresh: true }))).toEqual(["a@0", true]);
    expect(filled(headed.slice(1), at(12, { fresh: true }))).toEqual(["h@0", true]);
    expect([columnBlock(headed, true).endsInHeading, columnBlock(headed.slice(0, 2), true).endsInHeading]).toEqual([
      false,
      true,
    ]);
    // Taller than the page: it has to stand somewhere.
    expect(filled([slab("a", { height: 50 })], at(20, { fresh: true }))[0]).toBe("a@0");
  });
  test("a run brings its head, again on the next page, and its close where it ends", () => {
    const frame = (name: string, height: number): Frame => ({ height, items: [box(name)] });
    const run: RepeatedHead = { head: frame("head", 5), again: frame("again", 7), close: frame("close", 3) };
    const rows = [slab("a", { run, opens: true }), slab("b", { run }), slab("c")];
    expect(filled(rows, at(42))).toEqual(["head@0 a@5 b@17 close@27 c@32", false]);
    expect(filled(rows, at(41.99))).toEqual(["head@0 a@5 b@17 close@27", true]);
    // 5 + 10 + 2 + 10 + 3 are 30, and the close has to fit as well.
    expect(filled(rows, at(30))).toEqual(["head@0 a@5 b@17 close@27", true]);
    expect(filled(rows, at(29.99))).toEqual(["head@0 a@5 close@15", true]);
    const { rest } = columnBlock(rows, true).fill(at(29));
    expect(placed(rest!.fill(at(100)).frame)).toBe("again@0 b@7 close@17 c@22");
    expect(columnBlock(rows, true).fill(at(42)).frame!.height).toBe(42);
    // Behind something else the space above belongs to the head.
    expect(filled([slab("x"), ...rows], at(100))[0]).toBe("x@0 head@12 a@17 b@29 close@39 c@44");
  });
});

describe("columns side by side", () => {
  const of = (...heights: readonly number[]) =>
    columnBlock(
      heights.map((height, i) => slab(`${height}-${i}`, { height })),
      true,
    );
  const beside = (...blocks: readonly ReturnType<typeof columnBlock>[]) =>
    rowBlock(blocks.map((block, i) => ({ x: 100 * i, block })));
  test("begin together and are as high as the highest", () => {
    const { frame, rest } = beside(of(10), of(30)).fill(at(40));
    expect([frame!.height, frame!.items.map((item) => item.kind === "box" && item.x), rest]).toEqual([
      30,
      [0, 100],
      null,
    ]);
  });
  test("wait until all can begin, but not on a fresh page", () => {
    expect(beside(of(10), of(50)).fill(at(40)).frame).toBeNull();
    const { frame, rest } = beside(of(10, 10), of(50)).fill(at(15, { fresh: true }));
    expect([placed(frame), placed(rest!.fill(at(40)).frame)]).toEqual(["10-0@0 50-0@0", "10-1@0"]);
  });
  test("what goes on goes on in its own place", () => {
    const { rest } = beside(of(10), of(10, 10)).fill(at(15));
    expect(rest!.fill(at(15)).frame!.items.map((item) => item.kind === "box" && item.x)).toEqual([100]);
  });
  test("one that ends in a heading waits for its neighbour", () => {
    const headed = columnBlock([slab("h", { heading: true })], true);
    expect(beside(headed, of(10)).endsInHeading).toBe(true);
    expect(beside(of(10), of(10)).endsInHeading).toBe(false);
    expect(beside(headed, of(10, 10)).fill(at(15)).frame).toBeNull();
    expect(placed(beside(headed, of(10, 10)).fill(at(15, { fresh: true })).frame)).toBe("h@0 10-0@0");
    expect(placed(beside(headed, of(10)).fill(at(15)).frame)).toBe("h@0 10-0@0");
  });
});

describe("pages 100 high, 11 between rows", () => {
  const row = (slabs: readonly FlowBox[], split = false, newPage = false) => ({
    block: columnBlock(slabs, split),
    newPage,
  });
  const of = (name: string, height: number, newPage = false) => row([slab(name, { height })], false, newPage);
  const frameOf = (page: PageFrame): Frame => ({ height: page.height, items: itemsOf(page) });
  const pagesOf = (...rows: readonly ReturnType<typeof row>[]) =>
    paginate(rows, 100, 11).map((page) => placed(frameOf(page)));
  test("rows stand under each other while there is room, to the last bit", () => {
    expect(pagesOf(of("a", 40), of("b", 49))).toEqual(["a@0 b@51"]);
    expect(pagesOf(of("a", 40), of("b", 49.01))).toEqual(["a@0", "b@0"]);
    expect(paginate([of("a", 40), of("b", 49)], 100, 11).map(({ height }) => height)).toEqual([100]);
  });
  test("a page is turned where it is asked, but never twice", () => {
    expect(pagesOf(of("a", 10), of("b", 10, true), of("c", 10))).toEqual(["a@0", "b@0 c@21"]);
    expect(pagesOf(of("a", 10, true))).toEqual(["a@0"]);
    expect(pagesOf(of("a", 100), of("b", 10, true))).toEqual(["a@0", "b@0"]);
  });
  test("nothing at all is one empty page, and an empty row takes no room", () => {
    expect(paginate([], 100)).toEqual([{ height: 0, rows: [] }]);
    const empty = row([slab("none", { height: 0, items: [] })]);
    expect(pagesOf(of("a", 10), empty, of("b", 10))).toEqual(["a@0 b@21"]);
  });
  test("what is to stay whole is divided on a page of which less than two fifths are used", () => {
    const whole = row([slab("x", { height: 40 }), slab("y", { height: 40 })]);
    expect(pagesOf(of("a", 39.9), whole)).toEqual(["a@0 x@50.9", "y@0"]);
    expect(pagesOf(of("a", 40), whole)).toEqual(["a@0", "x@0 y@42"]);
  });
  test("a page after another has all its height", () => {
    const full = row([slab("x", { height: 49 }), slab("y", { height: 49 })]);
    expect(pagesOf(of("a", 60), full)).toEqual(["a@0", "x@0 y@51"]);
  });
  test("what goes on overleaf goes on at the top", () => {
    const long = row(
      ["p", "q", "r"].map((name) => slab(name, { height: 60 })),
      true,
    );
    expect(pagesOf(long, of("z", 20))).toEqual(["p@0", "q@0", "r@0 z@71"]);
  });
  test("a page knows its rows: which, where, how high, and whether each stands there whole", () => {
    const long = row([slab("p", { height: 60 }), slab("q", { height: 60 })], true);
    const known = paginate([of("a", 10), long, of("z", 20)], 100, 11).map(({ rows }) =>
      rows.map(({ row, y, height, whole }) => [row, y, height, whole]),
    );
    expect(known).toEqual([
      [
        [0, 0, 10, true],
        [1, 21, 60, false],
      ],
      [
        [1, 0, 60, false],
        [2, 71, 20, true],
      ],
    ]);
  });
  test("a heading by itself goes over with what follows it", () => {
    const heading = row([slab("h", { height: 10, heading: true })]);
    expect(pagesOf(of("a", 60), heading, of("b", 30))).toEqual(["a@0", "h@0 b@21"]);
    expect(pagesOf(of("a", 60), heading, of("b", 8))).toEqual(["a@0 h@71 b@92"]);
    expect(pagesOf(of("a", 60), heading, of("b", 5, true))).toEqual(["a@0", "h@0", "b@0"]);
    expect(pagesOf(of("a", 60), heading)).toEqual(["a@0 h@71"]);
    // Two of them, then something: all three or none.
    expect(pagesOf(of("a", 40), heading, heading, of("b", 10))).toEqual(
      ["a@0 h@51 h@72", "b@0"].slice(0, 0).concat(["a@0", "h@0 h@21 b@42"]),
    );
    // What follows it is enough, whatever comes after that.
    expect(pagesOf(of("a", 60), heading, of("b", 8), of("c", 30))).toEqual(["a@0 h@71 b@92", "c@0"]);
    expect(pagesOf(of("a", 20), heading, heading, of("b", 10))).toEqual(["a@0 h@31 h@52 b@73"]);
    // What may be divided gives it something to stand over.
    const long = row([slab("p", { height: 8 }), slab("q", { height: 60 })], true);
    expect(pagesOf(of("a", 60), heading, long)).toEqual(["a@0 h@71 p@92", "q@0"]);
  });
});

describe("a slab taller than any page", () => {
  const line = (y: number, size = 8, x = 0): PlacedItem => ({
    kind: "text",
    text: `${y}`,
    x,
    y,
    width: 1,
    size,
    weight: "regular",
    color: "",
    tag,
    block: "t",
  });
  const tall = (more: Partial<FlowBox> = {}): FlowBox => ({
    height: 40,
    items: [box("left"), ...[8, 18, 28, 38].map((y) => line(y))],
    gap: 6,
    tie: true,
    divisible: true,
    ...more,
  });
  const told = (pieces: readonly FlowBox[]) =>
    pieces.map(({ height, gap, tie, items }) => [
      height,
      gap,
      tie,
      items.map((item) => (item.kind === "text" ? `${item.text}@${item.y}` : item.block)).join(" "),
    ]);
  test("is cut between its lines, as many to a page as fit; its own space and tie stay at its ends", () => {
    expect(told(splitFlowBox(tall(), 20))).toEqual([
      [20, 6, false, "left 8@8 18@18"],
      [20, 0, true, "28@8 38@18"],
    ]);
    expect(told(splitFlowBox(tall(), 19.99)).map(([height]) => height)).toEqual([10, 10, 10, 10]);
    expect(splitFlowBox(tall({ tie: false }), 20).map(({ tie }) => tie)).toEqual([false, false]);
  });
  test("but not where it fits, or must not be divided", () => {
    expect(splitFlowBox(tall(), 40)).toHaveLength(1);
    expect(splitFlowBox(tall({ divisible: false }), 20)).toHaveLength(1);
  });
  test("under the head of its run there is less room, and only the first piece opens it", () => {
    const run: RepeatedHead = {
      head: { height: 10, items: [] },
      again: { height: 0, items: [] },
      close: { height: 0, items: [] },
    };
    const pieces = splitFlowBox(tall({ run, opens: true }), 20);
    expect(pieces.map(({ height, opens }) => [height, opens])).toEqual([
      [10, true],
      [20, false],
      [10, false],
    ]);
  });
  test("texts on one baseline go together, whatever order they came in", () => {
    const two = tall({ height: 20, items: [line(18), line(8), line(8, 8, 50), line(18.0078125, 8, 50)] });
    expect(told(splitFlowBox(two, 10)).map(([, , , items]) => items)).toEqual(["8@8 8@8", "18@8 18.0078125@8.0078125"]);
  });
});

test("of a text's lines the first two stay together, and the last two", () => {
  const ties = (count: number) =>
    lineBoxes(
      Array.from({ length: count }, () => []),
      12,
      6,
    ).map(({ tie }) => tie);
  expect([ties(1), ties(2), ties(3)]).toEqual([[false], [true, false], [true, true, false]]);
  expect(ties(5)).toEqual([true, false, false, true, false]);
  expect(lineBoxes([[], []], 12, 6).map(({ gap, height }) => [gap, height])).toEqual([
    [6, 12],
    [0, 12],
  ]);
});

test("charts have room where they are just as large as the least one, with a second scale if any has one", () => {
  const axis = { title: "", start: 0, end: 1, ticks: [], decimals: 0 };
  const plain = { kind: "line", x: axis, y: axis, series: [] } as const;
  const scaled = { ...plain, top: { title: "", ticks: [] } };
  const bars = { kind: "bar", x: { title: "", categories: [] }, y: axis, bars: [], groups: [] } as const;
  const leastChart = { width: 100, height: 90, secondScale: 20 };
  const lacks = (height: number, width: number, ...charts: readonly (typeof plain | typeof scaled | typeof bars)[]) =>
    roomShortage(
      { kind: "charts", height, charts: charts.map((chart) => ({ title: "", chart, alt: "" })) },
      { width, leastChart },
    );
  expect([lacks(70, 100, plain), lacks(69.9, 100, plain), lacks(70, 99.9, plain)]).toEqual([
    undefined,
    "low",
    "narrow",
  ]);
  expect([lacks(90, 100, scaled), lacks(89.9, 100, scaled), lacks(89.9, 100, bars)]).toEqual([undefined, "low", "low"]);
  // Two of 100 with a gutter between them.
  const { gutter } = grid;
  expect([lacks(70, 200 + gutter, plain, plain), lacks(70, 199.9 + gutter, plain, plain)]).toEqual([
    undefined,
    "narrow",
  ]);
  expect(lacks(89.9, 300, plain, scaled)).toBe("low");
});

test("a NaN throws and names its block, in rows and in heads", () => {
  const bad = box("b", Number.NaN);
  expect(() => assertFinite(slab("a", { items: [box("a"), bad] }), "flow")).toThrow(
    'block "flow": not a number at items.1.y',
  );
  expect(() => assertFinite(slab("a", { gap: Number.POSITIVE_INFINITY }), "flow")).toThrow("not a number at gap");
  expect(() => assertFinite(slab("a", { height: Number.NaN }), "flow")).toThrow("not a number at height");
  const good: Frame = { height: 1, items: [box("x")] };
  const wrong: Frame = { height: 1, items: [bad] };
  for (const run of [
    { head: wrong, again: good, close: good },
    { head: good, again: wrong, close: good },
    { head: good, again: good, close: wrong },
  ])
    expect(() => assertFinite(slab("a", { run, opens: true }), "flow")).toThrow("items.0.y");
  expect(assertFinite(slab("a"), "flow")).toEqual(slab("a"));
});

/** An item of each kind with all the numbers that it can have. */
const whole: readonly PlacedItem[] = [
  { kind: "text", text: "", x: 1, y: 1, width: 1, size: 1, weight: "regular", color: "", tag, block: "b" },
  { kind: "rule", x1: 1, y1: 1, x2: 1, y2: 1, width: 1, color: "", dash: [1, 1], tag, block: "b" },
  { kind: "box", x: 1, y: 1, width: 1, height: 1, fill: "", tag, block: "b" },
  { kind: "image", x: 1, y: 1, width: 1, height: 1, image: "", tag, block: "b" },
  {
    kind: "drawing",
    x: 1,
    y: 1,
    drawing: {
      width: 1,
      height: 1,
      items: [
        { kind: "text", role: "label", text: "", x: 1, y: 1, size: 1, weight: "regular", color: "", angle: 1 },
        {
          kind: "path",
          role: "curve",
          d: [["M", 1, 1], ["C", 1, 1, 1, 1, 1, 1], ["Z"]],
          stroke: { color: "", width: 1, dash: [1] },
          fill: "",
          fillOpacity: 1,
        },
      ],
    },
    tag,
    block: "b",
  },
];
/** The same data once for each number in it, with that number put wrong, and where it stands. */
function spoilt(value: unknown): readonly (readonly [path: string, value: unknown])[] {
  if (typeof value === "number") return [["", Number.NaN]];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) =>
    spoilt(inner).map(
      ([path, bad]) =>
        [`.${key}${path}`, Array.isArray(value) ? value.with(Number(key), bad) : { ...value, [key]: bad }] as const,
    ),
  );
}
test("every number of every item must be finite", () => {
  const all = whole.flatMap((item) => spoilt(item));
  expect(all.length).toBeGreaterThan(30);
  for (const [path, item] of all)
    expect(() => assertFinite(slab("a", { items: [item as PlacedItem] }), "b"), path).toThrow(
      `not a number at items.0${path}`,
    );
  expect(assertFinite(slab("a", { items: whole }), "b").items).toBe(whole);
});

test("a picture's size is the widest at which it stands on any page", () => {
  const image = (name: string, width: number): PlacedItem => ({
    kind: "image",
    x: 0,
    y: 0,
    width,
    height: width / 2,
    image: name,
    tag,
    block: "b",
  });
  const page = (...items: readonly PlacedItem[]): Page => ({ width: 1, height: 1, items });
  const sizes = drawnSizes([page(image("a", 10), box("x"), image("b", 5)), page(image("a", 30), image("a", 20))]);
  expect([...sizes]).toEqual([
    ["a", { width: 30, height: 15 }],
    ["b", { width: 5, height: 2.5 }],
  ]);
});

describe("what the font cannot draw: ⌀ in these tests", () => {
  const of = (parts: readonly unknown[], more: Partial<Sheet> = {}) => {
    const block = { name: "b", parts: parts as readonly Part[], split: true, priority: 1 };
    const sheet = { ...dummySheet(), rows: [{ cells: [{ block, from: 0, span: 6 }] }], ...more };
    return missingGlyphs(sheet, fixedMeasure).map(({ about }) => `${about.message}; ${about.hint}`);
  };
  const found = "the font has no `\u2300` (U+2300), wanted in block b; write `Ø`";
  test("is told of what is drawn, once a text", () => {
    const text = { kind: "paragraph", style: "body", text: "of \u230034" };
    expect(of([text, text])).toEqual([found]);
    expect(of([{ kind: "signatures", labels: [{ role: "Received by", name: "\u2300" }] }])).toEqual([found]);
    expect(of([{ kind: "masthead", name: "\u2300", lines: [] }])).toEqual([found]);
    expect(of([{ kind: "table", columns: [{ title: "\u2300", unit: "mm" }] }])).toEqual([found]);
    expect(of([], { more: "\u2300" })[0]).toContain("wanted in block more");
    expect(of([], { furniture: { left: "1", middle: "\u2300" } })[0]).toContain("wanted in block furniture");
  });
  test.each(["kind", "align", "style", "mark", "image", "alt", "link", "color", "marker", "axis"])(
    "is not told of %s, which is never drawn",
    (key) => expect(of([{ kind: "any", text: "plain", [key]: "\u2300" }])).toEqual([]),
  );
  test("nor of a line's own name beside its label", () => {
    expect(of([{ charts: [{ chart: { series: [{ name: "\u2300", label: "x", curve: [] }] } }] }])).toEqual([]);
    expect(of([{ charts: [{ chart: { series: [{ name: "x", label: "\u2300", curve: [] }] } }] }])).toEqual([found]);
  });
  test("a letter that has no likeness is to be written in words, one that has is proposed if the font has it", () => {
    const only = (lacking: string) => ({
      ...fixedMeasure,
      missing: (text: string) => [...text].filter((one) => lacking.includes(one)),
    });
    const hint = (letter: string, lacking = letter) =>
      missingGlyphs({ ...dummySheet(), rows: [], furniture: { left: letter } }, only(lacking))[0]!.about.hint;
    for (const yes of ["\u2713", "\u2714"]) expect(hint(yes)).toBe("write `yes`");
    for (const no of ["\u2717", "\u2718"]) expect(hint(no)).toBe("write `no`");
    expect(hint("\u25a1")).toBe("write `square`");
    const square = missingGlyphs({ ...dummySheet(), rows: [], furniture: { left: "\u25a1" } }, only("\u25a1"));
    expect(square[0]!.about.message).toContain("(U+25A1)");
    expect(hint("\uff21")).toBe("write `A`");
    expect(hint("\uff21", "\uff21A")).toMatch(/^write it in Latin/);
    expect(hint("漢")).toMatch(/^write it in Latin/);
    expect(missingGlyphs({ ...dummySheet(), rows: [], furniture: { left: "a\tb\r\nc" } }, only("\t\r\n"))).toEqual([]);
  });
});
