import { describe, expect, test } from "vitest";
import { type FlowBox, type RepeatedHead, splitFlowBox } from "../../src/layout/flow-box.ts";
import { furniture } from "../../src/layout/furniture.ts";
import { layoutSheet } from "../../src/layout/layout-sheet.ts";
import type { PlacedItem } from "../../src/layout/page.ts";
import { blanks } from "../../src/layout/parts/blanks.ts";
import { caution } from "../../src/layout/parts/caution.ts";
import { charts } from "../../src/layout/parts/charts.ts";
import { drawings } from "../../src/layout/parts/drawings.ts";
import { facts } from "../../src/layout/parts/facts.ts";
import { headline } from "../../src/layout/parts/headline.ts";
import { masthead } from "../../src/layout/parts/masthead.ts";
import { pictures } from "../../src/layout/parts/pictures.ts";
import { signatures } from "../../src/layout/parts/signatures.ts";
import { table } from "../../src/layout/parts/table.ts";
import { writeIn } from "../../src/layout/parts/write-in.ts";
import { typesetBlock } from "../../src/layout/set-block.ts";
import { textAt } from "../../src/layout/set-text.ts";
import type { PartContext } from "../../src/layout/setting.ts";
import { grid, types } from "../../src/layout/type-sizes.ts";
import { findMisfits } from "../../src/layout/unfit.ts";
import { wrap } from "../../src/layout/wrap.ts";
import type { Part, Sheet, Table } from "../../src/sheet/content.ts";
import { dummyDraw, dummySheet } from "./dummy-sheet.ts";
import { fixedMeasure } from "./fixed-measure.ts";

const base = dummySheet();
/** 400 pt wide, on pages 700 pt high; a character of 10 pt is 5 pt wide. */
const set: PartContext = {
  measure: fixedMeasure,
  draw: dummyDraw,
  drawTrueSize: (content, room) => {
    const [step] = content.shapes[0]!.steps;
    const [width, height] = step?.kind === "move" ? step.to : [0, 0];
    return width > room ? undefined : { width, height, items: [] };
  },
  images: new Map([["logo", { width: 80, height: 40 }]]),
  colors: base.theme.colors,
  types,
  width: 400,
  pageHeight: 700,
  block: "b",
  id: "x",
};
const times = <T>(count: number, make: (n: number) => T): T[] => Array.from({ length: count }, (_, n) => make(n));
const ties = (slabs: readonly FlowBox[]) => slabs.map(({ tie, loose }) => (tie ? (loose ? "l" : "t") : "-")).join("");
const texts = (items: readonly PlacedItem[]) => items.flatMap((item) => (item.kind === "text" ? [item] : []));
const rules = (items: readonly PlacedItem[]) => items.flatMap((item) => (item.kind === "rule" ? [item] : []));

test("a table of few columns that fits takes half of the live area, its head as many lines as its longest title needs", () => {
  const live = 6 * grid.column + 5 * grid.gutter;
  const widthOf = (columns: number, title: string, width = live) =>
    Math.max(
      ...rules(
        table(
          {
            kind: "table",
            columns: times(columns, () => ({ title, align: "decimal" as const })),
            rows: times(3, () => times(columns, () => ({ text: "1.5" }))),
            rowHeads: true,
            fifths: false,
            notes: [],
          },
          { ...set, width },
        ).flatMap(({ run }) => run?.head.items ?? []),
      ).map(({ x2 }) => x2),
    );
  const half = (live - grid.gutter) / 2;
  expect(widthOf(2, "Flow")).toBeCloseTo(half, 6);
  expect(widthOf(3, "Flow")).toBeCloseTo(half, 6);
  expect(widthOf(4, "Flow")).toBeCloseTo(live, 6);
  expect(widthOf(3, "A title as wide as a third of a page")).toBeCloseTo(live, 6);
  expect(widthOf(2, "Flow", 300)).toBeCloseTo(300, 6);
});

describe("what stays together: t with the next, l the same but first to yield, - may part", () => {
  const plain = (rows: number, more: Partial<Table> = {}): Table => ({
    kind: "table",
    columns: [{ title: "A", align: "left" }],
    rows: times(rows, (n) => [{ text: `${n}` }]),
    rowHeads: false,
    fifths: false,
    notes: [],
    ...more,
  });
  test("a table's first two rows and its last two; all of one of six rows", () => {
    const of = (...given: Parameters<typeof plain>) => ties(table(plain(...given), set));
    expect([1, 2, 3, 6].map((rows) => of(rows))).toEqual(["-", "t-", "tt-", "tlllt-"]);
    expect([7, 8].map((rows) => of(rows))).toEqual(["t----t-", "t-----t-"]);
    // Its notes go with the last row, and a note's lines as a paragraph's do.
    expect(of(2, { notes: ["one"] })).toBe("tt-");
    expect(of(8, { notes: ["one", "two"] })).toBe("t-----tt--");
    // Rows that belong together.
    expect(of(8, { together: [3, 2, 3] })).toBe("tt-t-tt-");
    expect(table(plain(2, { columns: [] }), set)).toEqual([]);
  });
  test("a table's rows may be cut where no page holds them, and only the first opens its head", () => {
    const slabs = table(plain(3, { notes: ["n"] }), set);
    expect(slabs.map(({ opens, divisible }) => [opens, divisible])).toEqual([
      [true, true],
      [false, true],
      [false, true],
      [undefined, undefined],
    ]);
    // 3 pt of air once any row has two lines, 4.5 pt after every fifth.
    const gaps = (more: Partial<Table>) => table(plain(6, more), set).map(({ gap }) => gap);
    expect(gaps({ fifths: true })).toEqual([6, 0, 0, 0, 0, 4.5]);
    const long = times(6, (n) => [{ text: n === 2 ? "word ".repeat(40) : "a" }]);
    expect(gaps({ rows: long })).toEqual([6, 3, 3, 3, 3, 3]);
  });
  test("boxes to write in, facts, cautions", () => {
    const boxes = (rows: number) =>
      ties(writeIn({ kind: "write-in", columns: [{ title: "A", share: 1 }], rows: times(rows, () => [""]) }, set));
    expect([1, 2, 3, 5].map(boxes)).toEqual(["-", "t-", "tt-", "t--t-"]);
    const short = { kind: "write-in", columns: [1, 2].map((share) => ({ title: "A", share })), rows: [["a"]] } as const;
    expect(texts(writeIn(short, set)[0]!.items)).toHaveLength(1);
    const pairs = (rows: number) =>
      facts({ kind: "facts", rows: times(rows, (n) => ({ label: `${n}`, value: "v" })) }, set);
    expect([1, 2, 3, 5].map((rows) => ties(pairs(rows)))).toEqual(["-", "t-", "tt-", "t--t-"]);
    expect(pairs(3).map(({ gap, divisible }) => [gap, divisible])).toEqual([
      [6, true],
      [1.5, true],
      [1.5, true],
    ]);
    const lines = (text: string) => ties(caution({ kind: "caution", signal: "Note", text }, set));
    expect([lines("one"), lines("word ".repeat(40)), lines("word ".repeat(60))]).toEqual(["-", "tt-", "ttt-"]);
  });
  test("blanks with whatever follows; numbers, charts, pictures, signatures and the shop's name by themselves", () => {
    const blank = { label: "L", share: 1, lines: 1 };
    const two = blanks({ kind: "blanks", rows: [[blank], [blank]] }, set);
    expect([ties(two), two.map(({ gap }) => gap)]).toEqual(["tt", [5, 2.5]]);
    const axis = { title: "", start: 0, end: 1, ticks: [], decimals: 0 };
    const chart = { title: "t", alt: "a", chart: { kind: "line", x: axis, y: axis, series: [] } } as const;
    const alone: readonly (readonly FlowBox[])[] = [
      headline({ kind: "headline", cells: [{ label: "l", number: "1" }] }, set),
      charts({ kind: "charts", height: 100, charts: [chart] }, set),
      pictures({ kind: "pictures", height: 100, pictures: [{ image: "logo", alt: "a" }] }, set),
      signatures({ kind: "signatures", labels: [{ role: "r" }] }, set),
      masthead({ kind: "masthead", name: "N", lines: [] }, set),
    ];
    expect(alone.map(ties)).toEqual(["-", "-", "-", "-", "-"]);
    expect(signatures({ kind: "signatures", labels: [] }, set)).toEqual([]);
  });
  const shown = (sizes: readonly (readonly [number, number])[], title = "T") =>
    drawings(
      {
        kind: "true-size",
        figures: sizes.map(([width, height], n) => ({
          title,
          drawing: {
            shapes: [{ steps: [{ kind: "move", to: [width, height] }] }],
            labels: [],
            scaleBar: { length: 1, parts: 1, label: "" },
          },
          alt: "a",
          fallback: `no ${n}`,
        })),
        caption: "c",
      },
      set,
    );
  test("drawings with their caption, a sentence in place of one by itself", () => {
    expect(ties(shown([[300, 50]]))).toBe("t-");
    expect(
      ties(
        shown([
          [300, 50],
          [300, 50],
        ]),
      ),
    ).toBe("tt-");
    expect(
      ties(
        shown([
          [300, 50],
          [900, 50],
          [901, 50],
        ]),
      ),
    ).toBe("t---");
    expect(ties(shown([[900, 50]]))).toBe("-");
  });
  test("a drawing leaves room for a caption of four lines on a page of its own", () => {
    // Its title is 14 high with 3 under it, four lines of a caption are 44: 639 is left of 700.
    const drawn = (height: number) => shown([[300, height]])[0]!.items.some(({ kind }) => kind === "drawing");
    expect([drawn(639), drawn(639.1)]).toEqual([true, false]);
  });
  test("a second drawing stands on the middle of the page, else after the one before, else below", () => {
    const places = (...widths: readonly number[]) =>
      shown(widths.map((width) => [width, 50])).map(({ items }) =>
        items.flatMap((item) => (item.kind === "drawing" ? [item.x] : [])),
      );
    const half = (400 + grid.gutter) / 2;
    const widest = 400 - half;
    expect(places(50, 50)[0]).toEqual([0, half]);
    expect(places(50, widest)[0]).toEqual([0, half]);
    // One that reaches beyond the middle is followed after a gutter, and one that has no room there goes below.
    expect(places(250, 400 - 250 - grid.gutter)[0]).toEqual([0, 250 + grid.gutter]);
    expect(places(250, 401 - 250 - grid.gutter).slice(0, 2)).toEqual([[0], [0]]);
    expect(places(20, 20, 20)[0]).toEqual([0, half, half + 20 + grid.gutter]);
    // A title of its own length, but no more than half of the width, is room that a drawing takes.
    const long = shown(Array(3).fill([20, 50]), "title ".repeat(40));
    const left = long.map(({ items }) => items.flatMap((item) => (item.kind === "drawing" ? [item.x] : [])));
    expect(left.slice(0, 2)).toEqual([[0, half], [0]]);
    for (const { x, width } of texts(long[0]!.items)) expect((x % half) + width).toBeLessThanOrEqual(widest + 1e-9);
  });
});

describe("a shop's name", () => {
  const of = (lines: readonly string[], more: object = {}, width = 400) => {
    const [slab] = masthead(
      { kind: "masthead", name: "Harbour", lines: lines.map((text) => ({ text })), ...more },
      { ...set, width },
    );
    return {
      slab: slab!,
      name: texts(slab!.items)[0]!,
      lines: texts(slab!.items).slice(1),
    };
  };
  // A line of 10 letters at 8.5 pt is 42.5 wide; the gap beside it is 10, and the name wants 110.
  const line = "abcdefghij";
  test("keeps 110 pt beside what stands at the right, which goes under it where there is less", () => {
    expect(of([line], {}, 162.5).lines[0]!.x).toBeCloseTo(162.5 - 42.5, 9);
    expect(of([line], {}, 162.4).lines[0]!.x).toBe(0);
    // Nothing stands beside it, so no gap either.
    const logo = { image: "logo", alt: "" };
    // The logo of 80 × 40 is 52 × 26: with its gap of 10 and 110 for the name 172.
    expect([of([], { logo }, 172).name.x, of([], { logo }, 171.9).name.x]).toEqual([62, 0]);
    expect(of([], { logo }).slab.items[1]).toMatchObject({ kind: "image", width: 52, height: 26, y: 9 });
    // A bar of 4, 5 under it, and 26 of logo.
    expect(of([], { logo }).slab.height).toBeCloseTo(35, 9);
    expect(of([]).slab.items[0]).toMatchObject({ kind: "box", height: 4, width: 400 });
  });
  test("is not wider than what is left of it", () => {
    const long = { name: "word ".repeat(12).trim() };
    const widest = (at: ReturnType<typeof of>) =>
      Math.max(
        ...texts(at.slab.items)
          .filter(({ size }) => size === 13)
          .map(({ x, width }) => x + width),
      );
    // 400 − 42.5 − 10 leave 347.5: ten words of 26 pt with 6.5 between them are 318.5, eleven are 351.
    expect(widest(of([line], long))).toBeCloseTo(10 * 26 + 9 * 6.5, 0);
  });
  test("a line wider than its part of the page is wrapped in it", () => {
    const wide = of(["word ".repeat(20).trim()]);
    for (const { x, width } of wide.lines) {
      expect(x).toBeCloseTo(400 * 0.5, 9);
      expect(x + width).toBeLessThanOrEqual(400);
    }
    expect(wide.lines.length).toBeGreaterThan(1);
    const narrow = of(["word ".repeat(20).trim()], {}, 120);
    for (const { x } of narrow.lines) expect(x).toBe(0);
  });
});

describe("numbers, facts and blanks", () => {
  test("a unit stands behind its number where it has room, else under it", () => {
    const of = (number: string, unit: string, width: number) => {
      const [slab] = headline({ kind: "headline", cells: [{ label: "l", number, unit }] }, { ...set, width });
      const [, big, small] = texts(slab!.items);
      return Math.abs(small!.y - big!.y) < 1 ? "behind" : "under";
    };
    // 5 letters at 24 pt are 60 wide, then 4, then 3 letters at 10.5 pt: 15.75.
    expect([of("246.1", "cfm", 79.75), of("246.1", "cfm", 79.7)]).toEqual(["behind", "under"]);
  });
  test("as many numbers stand side by side as leave each of them whole, four at most", () => {
    const across = (count: number, width: number, large = false) => {
      const [slab] = headline(
        { kind: "headline", large, cells: times(count, () => ({ label: "l", number: "246.1" })) },
        { ...set, width },
      );
      return new Set(texts(slab!.items).map(({ x }) => x)).size;
    };
    // Each is 60 wide, with a gutter between them.
    const needed = (count: number) => count * 60 + (count - 1) * grid.gutter;
    expect([across(5, 1000), across(5, 1000, true), across(1, 1000)]).toEqual([4, 3, 1]);
    expect([across(4, needed(4) + 1e-9), across(4, needed(4) - 0.1)]).toEqual([4, 3]);
    expect(across(2, 30)).toBe(1);
  });
  test("a note stands behind a value of one line where it has room, else under it", () => {
    const of = (value: string, note: string, width: number) => {
      const [slab] = facts({ kind: "facts", rows: [{ label: "L", value, note }] }, { ...set, width });
      const all = texts(slab!.items);
      return all.at(-1)!.y > all.at(-2)!.y + 5 ? "under" : "behind";
    };
    // The label of 4.5, 12 beside it, 4 letters at 10.5 pt: 21, then 6, then 4 at 8.5 pt: 17.
    expect([of("abcd", "note", 60.6), of("abcd", "note", 60.4)]).toEqual(["behind", "under"]);
    expect(of("word ".repeat(30), "n", 400)).toBe("under");
  });
  test("a blank's value leaves room for its unit, which stands at the end of the rule", () => {
    const of = (unit?: string) => {
      const value = "word ".repeat(15).trim();
      const [slab] = blanks(
        { kind: "blanks", rows: [[{ label: "L", value, share: 1, lines: 2, ...(unit && { unit }) }]] },
        { ...set, width: 130.5 },
      );
      return { all: texts(slab!.items), rules: rules(slab!.items), height: slab!.height };
    };
    // 130.5 hold 24 letters of 5.25: five words and four spaces. With a unit of 4.25 and 4 beside it 23: four words.
    const lines = ({ all }: ReturnType<typeof of>) => all.filter(({ size }) => size === 10.5);
    expect([lines(of()).length, lines(of("m")).length]).toEqual([3, 4]);
    const { all, rules: under, height } = of("m");
    expect(all.at(-1)).toMatchObject({ text: "m", x: 130.5 - 4.25 });
    expect(under.map(({ x1, x2 }) => [x1, x2])).toEqual(Array(2).fill([0, 130.5]));
    expect(under[1]!.y1 - under[0]!.y1).toBeCloseTo(15, 9);
    expect(height).toBeCloseTo(under[1]!.y1 + 1, 9);
    // The label stands above, and what is known just over the first rule.
    expect(all[0]!.y).toBeLessThan(lines(of())[0]!.y);
    expect(under[0]!.y1 - all.at(-2)!.y).toBeLessThan(10.5);
  });
});

describe("heads of tables", () => {
  const grouped = (groups: Table["groups"]): Table => ({
    kind: "table",
    columns: times(4, (n) => ({ title: `Title ${n}`, unit: "cfm", align: n === 0 ? "left" : "decimal" })),
    ...(groups && { groups }),
    rows: [times(4, () => ({ text: "1.0" }))],
    rowHeads: true,
    fifths: false,
    notes: [],
  });
  const head = (groups: Table["groups"]) => table(grouped(groups), set)[0]!.run!.head;
  test("a group stands over its columns, with a rule as far as they reach", () => {
    const { items } = head([
      { text: "", span: 1 },
      { text: "Intake", span: 2 },
      { text: "Exhaust", span: 1 },
    ]);
    const [intake, exhaust] = ["Intake", "Exhaust"].map((name) => texts(items).find(({ text }) => text === name)!);
    expect(intake!.y).toBe(exhaust!.y);
    expect(intake!.tag).toMatchObject({ row: 0, column: 1, span: 2, header: "column" });
    expect(exhaust!.tag).toMatchObject({ row: 0, column: 3, span: 1 });
    // Rules of half a point: one under each group that has words, and one under the whole head.
    const thin = rules(items).filter(({ width }) => width === 0.5);
    expect(thin).toHaveLength(3);
    const titles = texts(items).filter(({ text }) => text.startsWith("Title"));
    for (const [rule, name, first, last] of [
      [thin[0]!, intake!, titles[1]!, titles[2]!],
      [thin[1]!, exhaust!, titles[3]!, titles[3]!],
    ] as const) {
      expect(rule.x1).toBeCloseTo(Math.min(first.x, name.x), 6);
      expect(rule.x2).toBeCloseTo(last.x + last.width, 6);
      expect(name.x + name.width / 2).toBeCloseTo((rule.x1 + rule.x2) / 2, 6);
    }
    expect(titles.every(({ tag }) => tag.kind === "cell" && tag.row === 1)).toBe(true);
  });
  test("groups without words, or of columns that are not there, draw nothing", () => {
    const thin = (groups: Table["groups"]) => rules(head(groups).items).filter(({ width }) => width === 0.5).length;
    expect(thin([{ text: "", span: 4 }])).toBe(1);
    expect(thin([{ text: "Far", span: 9 }])).toBe(1);
    expect(
      thin([
        { text: "All", span: 4 },
        { text: "Gone", span: 1 },
      ]),
    ).toBe(2);
    expect(thin(undefined)).toBe(1);
  });
  test("a table that goes on says so, under its title or without one", () => {
    const again = (title?: string) =>
      texts(table({ ...grouped(undefined), ...(title && { title }) }, set)[0]!.run!.again.items)[0]!.text;
    expect([again("Readings"), again()]).toEqual(["Readings (continued)", "(continued)"]);
  });
  test("a column is as wide as its unit where nothing else in it is", () => {
    const narrow = (unit: string) => {
      const columns = [
        { title: "A", align: "left" },
        { title: "B", unit, align: "decimal" },
      ] as const;
      const { items } = table({ ...grouped(undefined), columns, rows: [[{ text: "1" }, { text: "2" }]] }, set)[0]!.run!
        .head;
      const { x, width } = texts(items).find(({ text }) => text === unit)!;
      return { x, width, right: rules(items)[0]!.x2 };
    };
    const long = narrow("cubic feet a minute");
    expect(long.x + long.width).toBeLessThanOrEqual(long.right + 1e-9);
    expect(long.x).toBeGreaterThan(9);
  });
});

describe("what does not fit", () => {
  const tag = { kind: "artifact" } as const;
  const text = (x: number, y: number, width: number, size = 10): PlacedItem => ({
    ...{ kind: "text", text: "t", x, y, width, size, weight: "regular", color: "", tag, block: "b" },
  });
  const box = (x: number, y: number, width: number, height: number): PlacedItem => ({
    ...{ kind: "box", x, y, width, height, fill: "", tag, block: "b" },
  });
  const rule = (x1: number, x2: number, y: number): PlacedItem => ({
    ...{ kind: "rule", x1, x2, y1: y, y2: y, width: 1, color: "", tag, block: "b" },
  });
  const drawing = (x: number, y: number, width: number, height: number): PlacedItem => ({
    ...{ kind: "drawing", x, y, drawing: { width, height, items: [] }, tag, block: "b" },
  });
  const slab = (items: readonly PlacedItem[], more: Partial<FlowBox> = {}): FlowBox => ({
    height: 50,
    items,
    gap: 0,
    tie: false,
    ...more,
  });
  const part: Part = { kind: "paragraph", style: "body", text: "" };
  const room = { name: "b", width: 100, pageHeight: 100 };
  const codes = (slabs: readonly FlowBox[], of: Part = part) =>
    findMisfits(of, slabs, slabs, room).map(({ code }) => code);
  const crowded = (...items: readonly PlacedItem[]) => codes([slab(items)]).length > 0;
  test("is ink beyond either edge, by more than a hundredth of a point", () => {
    expect([crowded(text(0, 10, 100)), crowded(text(0, 10, 100.1)), crowded(text(-0.1, 10, 50))]).toEqual([
      false,
      true,
      true,
    ]);
    expect([crowded(drawing(0, 0, 100, 10)), crowded(drawing(1, 0, 100, 10)), crowded(drawing(-1, 0, 50, 10))]).toEqual(
      [false, true, true],
    );
  });
  test("is ink on other ink, whichever was set first, and not rules or fills", () => {
    const [one, two] = [drawing(0, 0, 50, 20), drawing(40, 10, 50, 20)];
    expect([crowded(one, two), crowded(two, one)]).toEqual([true, true]);
    expect(crowded(one, drawing(50, 10, 50, 20))).toBe(false);
    expect(crowded(one, drawing(0, 20, 50, 20))).toBe(false);
    expect(crowded(drawing(40, 0, 50, 20), drawing(0, 10, 40, 20))).toBe(false);
    expect(crowded(one, rule(0, 100, 10), box(0, 0, 100, 50), rule(-5, 105, 5), box(-5, 0, 200, 5))).toBe(false);
    // A text reaches from 0.7 of its size above its line to 0.2 below: lines of 10 pt are apart by 9.
    expect([crowded(text(0, 20, 50), text(0, 29, 50)), crowded(text(0, 20, 50), text(0, 28.9, 50))]).toEqual([
      false,
      true,
    ]);
    expect(crowded(drawing(0, 0, 40, 10), drawing(60, 50, 10, 10), drawing(0, 5, 40, 10))).toBe(true);
    // A tall one before a low one before one under the tall one.
    expect(crowded(drawing(0, 0, 40, 40), drawing(50, 5, 10, 5), drawing(30, 30, 40, 10))).toBe(true);
  });
  test("is looked for in heads as well, of the slab that brings them", () => {
    const wide = { height: 5, items: [text(0, 4, 200)] };
    const fine = { height: 5, items: [text(0, 4, 20)] };
    const run = (head: typeof wide, again: typeof wide): RepeatedHead => ({ head, again, close: fine });
    expect(codes([slab([], { run: run(wide, fine), opens: true })])).toEqual(["layout/too-narrow"]);
    expect(codes([slab([], { run: run(fine, wide), opens: true })])).toEqual(["layout/too-narrow"]);
    expect(codes([slab([], { run: run(fine, fine), opens: true })])).toEqual([]);
    expect(codes([slab([], { opens: true })])).toEqual([]);
  });
  test("is a slab taller than a page, under the heads of its run", () => {
    expect([codes([slab([], { height: 100 })]), codes([slab([], { height: 100.01 })])]).toEqual([
      [],
      ["layout/too-tall"],
    ]);
    const run: RepeatedHead = {
      head: { height: 30, items: [] },
      again: { height: 20, items: [] },
      close: { height: 5, items: [] },
    };
    const of = (height: number, opens: boolean) => codes([slab([], { height, run, opens })]);
    expect([of(65, true), of(65.1, true), of(75, false), of(75.1, false)]).toEqual([
      [],
      ["layout/too-tall"],
      [],
      ["layout/too-tall"],
    ]);
  });
  test("are charts lower or narrower than can be drawn, and it says how high they have to be", () => {
    const axis = { title: "", start: 0, end: 1, ticks: [], decimals: 0 };
    const chart = { title: "", alt: "", chart: { kind: "line", x: axis, y: axis, series: [] } } as const;
    const of = (height: number, width: number) =>
      findMisfits({ kind: "charts", height, charts: [chart] }, [], [], {
        ...room,
        width,
        leastChart: { width: 90, height: 80, secondScale: 20 },
      }).map(({ severity, code, message, hint }) => [severity, code, message, hint]);
    expect(of(60, 90)).toEqual([]);
    expect(of(59, 90)).toEqual([
      ["error", "layout/too-low", "block b is too low for charts", "give it more height in the template, at least 60"],
    ]);
    expect(of(60, 89)).toEqual([
      ["error", "layout/too-narrow", "block b is too narrow for charts", "give it more columns in the template"],
    ]);
  });
  test("are numbers, and a chart drawn lower than it was asked for", () => {
    const numbers: Part = { kind: "headline", cells: [] };
    const wide = [slab([text(0, 10, 200)])];
    expect(findMisfits(numbers, wide, wide, room)[0]!.message).toBe("block b is too narrow for numbers");
    const high: Part = { kind: "charts", height: 30, charts: [] };
    expect(codes([slab([drawing(0, 0, 50, 29.5)])], high)).toEqual([]);
    expect(codes([slab([drawing(0, 0, 50, 29)])], high)).toEqual(["layout/reduced"]);
    expect(codes([slab([drawing(0, 0, 50, 29)])])).toEqual([]);
  });
  test("a row cut in pieces takes what stands at the height of each: rules and pictures by their tops", () => {
    const tall = slab(
      [
        rule(0, 9, 0),
        text(0, 8, 9, 8),
        rule(0, 9, 10.5),
        text(0, 18, 9, 8),
        drawing(20, 25, 5, 5),
        text(0, 28, 9, 8),
        rule(0, 9, 29),
      ],
      { height: 30, divisible: true },
    );
    const kinds = splitFlowBox(tall, 12).map(({ items }) => items.map(({ kind }) => kind[0]).join(""));
    expect(kinds).toEqual(["rt", "rt", "dtr"]);
    // A run's head and foot take their room from the first piece and from those after it.
    const run: RepeatedHead = {
      head: { height: 2, items: [] },
      again: { height: 1, items: [] },
      close: { height: 3, items: [] },
    };
    const heights = (pageHeight: number) =>
      splitFlowBox({ ...tall, run, opens: true }, pageHeight).map(({ height }) => height);
    expect(heights(25)).toEqual([20, 10]);
    expect(heights(24.9)).toEqual([10, 20]);
    expect(splitFlowBox(slab([drawing(0, 0, 5, 50)], { divisible: true }), 20)).toEqual([]);
  });
});

describe("lines and pages", () => {
  const lines = (phrase: string, width: number) =>
    wrap([{ text: phrase, weight: "regular" }], 10, width, fixedMeasure).map(({ pieces }) =>
      pieces.map((one) => one.text).join("|"),
    );
  test("a line that was asked for begins after a full one as well, and after one that was cut", () => {
    expect(lines("ab cd\nef gh ij", 25)).toEqual(["ab cd", "ef gh", "ij"]);
    expect(lines("ab\nabcdefgh", 20)).toEqual(["ab", "abcd", "efgh"]);
    expect(lines("abcdefgh\nab", 20)).toEqual(["abcd", "efgh", "ab"]);
    expect(lines("ab abcdefgh", 20)).toEqual(["ab", "abcd", "efgh"]);
    // What is left of a cut word goes on with the next.
    expect(lines("abcdef gh", 25)).toEqual(["abcde", "f gh"]);
    expect(lines("abcd", 2)).toEqual(["a", "b", "c", "d"]);
  });
  test("a line holds what fits it to a millionth of a point", () => {
    expect(lines("ab cd", 25)).toEqual(["ab cd"]);
    expect(lines("ab cd", 24.9995)).toEqual(["ab", "cd"]);
    expect(lines("abcde", 25)).toEqual(["abcde"]);
    expect(lines("abcde", 24.9995)).toEqual(["abcd", "e"]);
  });
  test("on a page smaller than A4 six columns and their gutters fill what its margins leave", () => {
    const paper = { ...base.theme.paper, width: 300, margin: { left: 20, right: 20, top: 20, bottom: 30 } };
    const block = {
      name: "s",
      parts: [{ kind: "signatures", labels: [{ role: "r" }] }],
      split: true,
      priority: 1,
    } as const;
    const sheet: Sheet = {
      ...base,
      theme: { ...base.theme, paper },
      rows: [
        {
          cells: [
            { block, from: 0, span: 2 },
            { block, from: 4, span: 2 },
          ],
        },
      ],
    };
    const { pages } = layoutSheet({ ...sheet, bare: true }, set);
    const column = (260 - 5 * grid.gutter) / 6;
    const [left, right] = rules(pages[0]!.items);
    expect([left!.x1, left!.x2, right!.x2].map((x) => x.toFixed(1))).toEqual(
      [20, 20 + 2 * column + grid.gutter, 280].map((x) => x.toFixed(1)),
    );
    // A bare sheet has nothing else on it.
    expect(pages[0]!.items.every(({ block: name }) => name === "s")).toBe(true);
    expect(layoutSheet(sheet, set).pages[0]!.items.some(({ block: name }) => name === "furniture")).toBe(true);
  });
  test("a figure leaves room for the headings above it, unless they leave it less than half of the page", () => {
    const picture: Part = { kind: "pictures", height: 900, pictures: [{ image: "logo", alt: "a" }] };
    const headings = (count: number) => times(count, (): Part => ({ kind: "heading", level: 1, text: "H" }));
    const height = (count: number, pageHeight = 120) => {
      const { block } = typesetBlock(
        { name: "b", parts: [...headings(count), picture], split: true, priority: 1 },
        { ...set, width: 4000, pageHeight },
      );
      const { frame } = block.fill({ height: 1e6, fresh: true, pressed: false });
      return frame!.items.flatMap((item) => (item.kind === "image" ? [item.height] : []))[0];
    };
    // A heading is 26 high; 6 stand under the last, 14 between two.
    expect([height(0, 150), height(1, 150), height(2, 150)]).toEqual([150, 150 - 32, 150 - 72]);
    expect([height(2, 144.1), height(2, 143.9)]).toEqual([expect.closeTo(72.1, 6), 143.9]);
  });
  test("a text at a place stands on one line, however it was typed, and takes the room of that line", () => {
    const set = { measure: fixedMeasure, block: "b" } as never;
    const ink = { color: "#000", tag: { kind: "artifact" } } as const;
    const placed = textAt("Mill\n\n Lane\t2", 0, 0, { size: 10, lead: 12, weight: "regular" }, ink, set);
    expect(placed.text).toBe("Mill Lane 2");
    expect(placed.width).toBe(fixedMeasure.width("Mill Lane 2", "regular", 10));
    expect(textAt("no\u00a0break  kept", 0, 0, { size: 10, lead: 12, weight: "regular" }, ink, set).text).toBe(
      "no\u00a0break  kept",
    );
  });
  test("the foot of a page gives way from its left: number, then what is in the middle, then the count", () => {
    const foot = (left: string, middle: string | undefined, width: number) =>
      furniture(1, 2, {
        sheet: { ...base, furniture: { left, ...(middle === undefined ? {} : { middle }) } },
        measure: fixedMeasure,
        width,
        height: 100,
      }).flatMap((item) => (item.kind === "text" ? [item] : []));
    // "Page 1 of 2" is 11 letters of 4.25: 46.75, with 12 beside it.
    const fits = (letters: number) => letters * 4.25 + 12 + 46.75;
    expect(foot("a".repeat(20), undefined, fits(20))[0]!.text).toBe("a".repeat(20));
    expect(foot("a".repeat(20), undefined, fits(20) - 0.1)[0]!.text).toBe(`${"a".repeat(18)}…`);
    // A number typed on several lines stands on one.
    expect(foot(" line\r\nline\n\n\tline\n", undefined, 300)[0]!.text).toBe("line line line");
    expect(foot("a", undefined, 200).map(({ text }) => text)).toEqual(["a", "Page 1 of 2"]);
    // With something at the second half it has the first, less 12: half of 200 with a gutter of 14 begins at 107, so 22 letters.
    expect(foot("a".repeat(22), "m", 200)[0]!.text).toBe("a".repeat(22));
    expect(foot("a".repeat(23), "m", 200)[0]!.text).toBe(`${"a".repeat(21)}…`);
    // Nothing is left for the middle, and so it is not there.
    expect(foot("a".repeat(19), "mmmmmmmmmmmmmmmmmm", 120).map(({ text }) => text).length).toBe(2);
    expect(foot("a", "mm", 200)[1]!.x).toBeCloseTo(107, 9);
  });
});
