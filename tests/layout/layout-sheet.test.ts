import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { layoutSheet } from "../../src/layout/layout-sheet.ts";
import type { Page, Tag } from "../../src/layout/page.ts";
import type { LayoutEnv } from "../../src/layout/setting.ts";
import { grid } from "../../src/layout/type-sizes.ts";
import type { BlockContent, Part, Sheet, SheetRow, Table } from "../../src/sheet/content.ts";
import { boxOf, flowTexts, outside, overlaps } from "./boxes.ts";
import { dummyDraw, dummySheet } from "./dummy-sheet.ts";
import { fixedMeasure } from "./fixed-measure.ts";

fc.configureGlobal({ seed: 20260314 });

const images = new Map([
  ["p", { width: 400, height: 300 }],
  ["tall", { width: 300, height: 400 }],
]);
const env = { measure: fixedMeasure, draw: dummyDraw, drawTrueSize: () => undefined, images };
const base = dummySheet();
const margin = base.theme.paper.margin;
const block = (parts: readonly Part[], more: Partial<BlockContent> = {}): BlockContent => ({
  name: "b",
  parts,
  split: true,
  priority: 50,
  ...more,
});
const row = (b: BlockContent): SheetRow => ({ cells: [{ block: b, from: 0, span: 6 }] });
const sheet = (rows: readonly SheetRow[], more: Partial<Sheet> = {}): Sheet => ({ ...base, rows, ...more });
const pagesOf = (s: Sheet) => layoutSheet(s, env).pages;
const table = (rows: readonly string[], more: Partial<Table> = {}): Table => ({
  kind: "table",
  title: "Readings",
  columns: [
    { title: "Row", align: "left" },
    { title: "Flow", unit: "cfm", align: "decimal" },
  ],
  rows: rows.map((name, i) => [{ text: name }, { text: (i * 1.5).toFixed(1) }]),
  rowHeads: true,
  fifths: true,
  notes: [],
  ...more,
});
const sound = (pages: readonly Page[]) => {
  for (const page of pages) {
    expect(outside(page, margin)).toEqual([]);
    expect(overlaps(page)).toEqual([]);
  }
};

describe("the dummy sheet", () => {
  test.each(["A4", "Letter"] as const)("%s: nothing outside the live area, nothing on anything else", (paper) => {
    const s = dummySheet({ paper, banner: "DRAFT" });
    for (const page of pagesOf(s)) {
      expect(outside(page, s.theme.paper.margin)).toEqual([]);
      expect(overlaps(page)).toEqual([]);
    }
  });
  test("every page counts itself, the last one ends the sheet, the banner is everywhere", () => {
    const pages = pagesOf(dummySheet({ banner: "DRAFT" }));
    const furniture = pages.map((p) =>
      p.items.flatMap((i) => (i.kind === "text" && i.block === "furniture" ? [i.text] : [])),
    );
    furniture.forEach((texts, i) => {
      const last = i === pages.length - 1;
      expect(texts).toContain(`Page ${i + 1} of ${pages.length}${last ? " · end of sheet" : ""}`);
      expect(texts).toContain("DRAFT");
    });
  });
  test("later pages begin with name and stamp, above and apart from what flows on them", () => {
    const head = { name: "Wedge six, 4471", aside: "Harbour Head Works", draft: true } as const;
    const { furniture, ...rest } = dummySheet();
    const pages = pagesOf({ ...rest, furniture: { ...furniture, head } });
    expect(pages.length).toBeGreaterThan(1);
    sound(pages);
    pages.forEach(({ items }, i) => {
      const said = items.flatMap((item) => (item.kind === "text" && item.block === "furniture" ? [item] : []));
      const texts = said.map(({ text }) => text);
      if (i === 0) expect(texts).not.toContain(head.name);
      else {
        expect(texts).toEqual(expect.arrayContaining([head.name, head.aside, "Draft"]));
        const foot = said.find(({ text }) => text === head.name)!.y;
        const flowing = items.flatMap((item) => (item.kind === "text" && item.block !== "furniture" ? [item.y] : []));
        expect(Math.min(...flowing)).toBeGreaterThan(foot + 12);
      }
    });
  });
});

describe("tables", () => {
  const names = (n: number) => Array.from({ length: n }, (_, i) => `row${i}`);
  const paras = (n: number): Part[] =>
    Array.from({ length: n }, (_, i) => ({ kind: "paragraph", style: "body", text: `line ${i}` }) as const);

  test("every row once and in order, a head on each page, no row alone, always ends", () =>
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 140 }),
        fc.integer({ min: 0, max: 60 }),
        fc.boolean(),
        (before, count, notes) => {
          const part = table(names(count + 1), { notes: notes ? ["A note under the table."] : [] });
          const pages = pagesOf(sheet([row(block(paras(before))), row(block([part]))]));
          sound(pages);
          const onPage = pages.map((p) =>
            flowTexts(p)
              .filter((t) => t.tag.kind === "cell" && t.tag.header === "row")
              .map((t) => t.text),
          );
          expect(onPage.flat()).toEqual(names(count + 1));
          pages.forEach((page, i) => {
            const texts = flowTexts(page).map((t) => t.text);
            const heads = texts.filter((t) => t === "Row").length;
            expect(heads).toBe(onPage[i]!.length > 0 ? 1 : 0);
            const first = onPage.findIndex((rows) => rows.length > 0);
            if (onPage[i]!.length > 0) expect(texts.includes("Readings (continued)")).toBe(i !== first);
            if (count > 0) expect(onPage[i]!.length).not.toBe(1);
          });
        },
      ),
      { numRuns: 60 },
    ));

  test("figures stand with their decimals under each other, dashes on the units", () =>
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -999, max: 999, noNaN: true }), { minLength: 2, maxLength: 12 }),
        (values) => {
          const text = (v: number, i: number) => `${v < 0 ? "\u2212" : i % 2 ? "+" : ""}${Math.abs(v).toFixed(i % 3)}`;
          const texts = [...values.map(text), "\u2013"];
          const part = { ...table([]), rows: texts.map((t) => [{ text: "r" }, { text: t }]) };
          const cells = pagesOf(sheet([row(block([part]))]))
            .flatMap(flowTexts)
            .filter((t) => t.tag.kind === "cell" && t.tag.column === 1 && !t.tag.header);
          const unitsEnd = cells.map((c) => c.x + c.text.split(".")[0]!.length * c.size * 0.5);
          for (const x of unitsEnd) expect(x).toBeCloseTo(unitsEnd[0]!, 1);
        },
      ),
      { numRuns: 50 },
    ));

  test("a row higher than a page goes on, and nothing of it is lost", () => {
    const words = Array.from({ length: 900 }, (_, i) => `w${i}`);
    const rows = [
      [{ text: words.join(" ") }, { text: "1" }],
      [{ text: "x" }, { text: "2" }],
    ];
    const essay = { cells: [{ block: block([{ ...table([]), rows }]), from: 0, span: 2 }] };
    const pages = pagesOf(sheet([essay]));
    sound(pages);
    const { diagnostics } = layoutSheet(sheet([essay]), env);
    expect(diagnostics).toMatchObject([{ severity: "warning", code: "layout/divided" }]);
    expect(diagnostics[0]!.message).toContain("block b ");
    const seen = pages
      .flatMap(flowTexts)
      .filter((t) => t.tag.kind === "cell" && t.tag.header === "row")
      .flatMap((t) => t.text.split(" "));
    expect(seen).toEqual([...words, "x"]);
  });

  test("columns keep whole words while there is room, and stay within the width at any content", () =>
    fc.assert(
      fc.property(
        fc.array(fc.array(fc.stringMatching(/^[a-z]{1,12}( [a-z]{1,20}){0,8}$/), { minLength: 4, maxLength: 4 }), {
          minLength: 1,
          maxLength: 8,
        }),
        (rows) => {
          const columns = ["A", "B", "C", "D"].map((title) => ({ title, align: "left" }) as const);
          const part: Table = { ...table([]), columns, rows: rows.map((cells) => cells.map((text) => ({ text }))) };
          sound(pagesOf(sheet([row(block([part]))])));
        },
      ),
      { numRuns: 50 },
    ));
});

describe("any sheet", () => {
  const words = fc.array(fc.stringMatching(/^[a-z]{1,14}$/), { minLength: 1, maxLength: 60 }).map((w) => w.join(" "));
  const short = fc.stringMatching(/^[a-z]{1,14}$/);
  const part: fc.Arbitrary<Part> = fc.oneof(
    fc.record({
      kind: fc.constant("heading" as const),
      level: fc.constantFrom(1 as const, 2 as const, 3 as const),
      text: short,
    }),
    fc.record({
      kind: fc.constant("paragraph" as const),
      style: fc.constantFrom("body" as const, "lead" as const, "quiet" as const),
      text: words,
    }),
    fc.record({
      kind: fc.constant("list" as const),
      items: fc.array(fc.record({ text: words }), { minLength: 1, maxLength: 5 }),
    }),
    fc.record({
      kind: fc.constant("facts" as const),
      rows: fc.array(fc.record({ label: short, value: words, note: short }), { minLength: 1, maxLength: 6 }),
    }),
    fc.record({
      kind: fc.constant("caution" as const),
      signal: fc.constantFrom("Note" as const, "Caution" as const),
      text: words,
    }),
    fc.record({
      kind: fc.constant("signatures" as const),
      labels: fc.array(fc.record({ role: short }), { minLength: 1, maxLength: 3 }),
    }),
    fc.integer({ min: 1, max: 30 }).map((n) => table(Array.from({ length: n }, (_, i) => `r${i}`))),
    fc.record({
      kind: fc.constant("pictures" as const),
      pictures: fc.array(fc.record({ image: fc.constantFrom("p", "tall"), alt: fc.constant("a"), caption: short }), {
        minLength: 1,
        maxLength: 5,
      }),
      height: fc.integer({ min: 20, max: 2000 }),
    }),
    fc.integer({ min: 30, max: 1500 }).map(
      (height): Part => ({
        kind: "charts",
        height,
        charts: [{ title: "Intake", alt: "a", chart: { kind: "line", x: axis, y: axis, series: [] } }],
        caption: "below",
      }),
    ),
    fc
      .array(
        fc.record({
          label: words,
          number: fc.constant("246.1"),
          unit: fc.constant("cfm"),
          verdict: fc.constant({ mark: "up" as const, text: "Clear gain" }),
        }),
        { minLength: 1, maxLength: 6 },
      )
      .map((cells): Part => ({ kind: "headline", cells })),
  );
  const parts = fc
    .array(part, { minLength: 1, maxLength: 4 })
    .filter((all) => all.length === 1 || all.at(-1)!.kind !== "heading");
  const rowOf = (tag: Tag) => Number(/^r(\d+)/.exec("id" in tag ? tag.id : "table" in tag ? tag.table : "")![1]);
  const blocks = fc.record({
    name: fc.constant("b"),
    parts,
    split: fc.boolean(),
    priority: fc.integer({ min: 0, max: 100 }),
  });
  const rows = fc.array(
    fc.oneof(
      blocks.map((b): SheetRow => ({ cells: [{ block: b, from: 0, span: 6 }] })),
      fc.tuple(blocks, blocks).map(
        ([a, b]): SheetRow => ({
          cells: [
            { block: a, from: 0, span: 2 },
            { block: b, from: 2, span: 4 },
          ],
        }),
      ),
    ),
    { minLength: 1, maxLength: 8 },
  );

  test("ends; nothing outside, nothing on anything else, no heading last on a page", () =>
    fc.assert(
      fc.property(rows, (all) => {
        const pages = pagesOf(sheet(all));
        sound(pages);
        pages.slice(0, -1).forEach((page) => {
          const solid = page.items.filter((i) => i.block !== "furniture" && i.tag.kind !== "artifact");
          const bottom = Math.max(...solid.map((i) => boxOf(i).bottom));
          const last = solid.find((i) => boxOf(i).bottom > bottom - 0.01)!;
          if (last.tag.kind !== "heading") return;
          // Only where its row is the first on the page: there is nowhere better to put it.
          expect(solid.filter((i) => rowOf(i.tag) < rowOf(last.tag))).toEqual([]);
        });
      }),
      { numRuns: 40 },
    ));

  test("every word of running text once and in order", () =>
    fc.assert(
      fc.property(fc.array(fc.array(words, { minLength: 1, maxLength: 6 }), { minLength: 1, maxLength: 12 }), (all) => {
        const running = all.map((texts) =>
          row(block(texts.map((text): Part => ({ kind: "paragraph", style: "body", text })))),
        );
        const seen = pagesOf(sheet(running)).flatMap((page) => flowTexts(page).flatMap((t) => t.text.split(" ")));
        expect(seen).toEqual(all.flat().flatMap((text) => text.split(" ")));
      }),
      { numRuns: 40 },
    ));

  test("a one-page sheet keeps one page; what cannot stand beside what matters more is left out, with a warning", () =>
    fc.assert(
      fc.property(rows, (all) => {
        const named = all.map((r, i) => ({
          ...r,
          cells: r.cells.map((c, j) => ({
            ...c,
            block: { ...c.block, priority: Math.min(c.block.priority, 99), name: `b${i}-${j}` },
          })),
        }));
        const { pages, diagnostics } = layoutSheet(
          sheet(named, { onePage: true, more: "More on the full sheet." }),
          env,
        );
        expect(pages.length).toBe(1);
        const kept = new Set(pages[0]!.items.map((i) => i.block));
        const cells = named.flatMap((r) => r.cells.map((c) => c.block));
        const left = cells.filter((b) =>
          diagnostics.some((d) => d.message.startsWith(`block ${b.name} does not fit the one page`)),
        );
        expect(diagnostics.map((d) => d.code).filter((code) => code !== "layout/reduced")).toEqual(
          left.map(() => "layout/left-out"),
        );
        for (const b of left) expect(kept.has(b.name)).toBe(false);
        for (const b of cells) if (!left.includes(b)) expect(kept.has(b.name)).toBe(true);
        expect(kept.has("more")).toBe(left.length > 0);
        for (const b of left) {
          // It had to go: beside what is kept of higher priority it takes a second page.
          const above = cells.filter((c) => c === b || (!left.includes(c) && c.priority > b.priority));
          const rest = named.map((r) => ({
            ...r,
            asked: r.cells.length,
            cells: r.cells.filter((c) => above.includes(c.block)),
          }));
          const more = row(block([{ kind: "paragraph", style: "quiet", text: "More on the full sheet." }]));
          const equals = cells.filter((c) => c !== b && !left.includes(c) && c.priority === b.priority);
          if (equals.length === 0) expect(pagesOf(sheet([...rest, more])).length).toBeGreaterThan(1);
        }
      }),
      { numRuns: 60 },
    ));
});

const axis = { title: "Lift", start: 0, end: 1, ticks: [0, 1], decimals: 0 };

describe("rules", () => {
  const filler = (n: number): Part => ({
    kind: "paragraph",
    style: "body",
    text: Array.from({ length: n }, () => "word\n").join(""),
  });
  test("a heading in a block of its own goes with the next row", () => {
    for (let lines = 36; lines < 50; lines++) {
      const pages = pagesOf(
        sheet([
          row(block([filler(lines)])),
          row(block([{ kind: "heading", level: 2, text: "Alone" }])),
          row(block([filler(6)])),
        ]),
      );
      const page = pages.find((p) => flowTexts(p).some((t) => t.text === "Alone"))!;
      expect(flowTexts(page).at(-1)!.text).not.toBe("Alone");
    }
  });
  test("a paragraph leaves two lines on each side", () => {
    for (let lines = 36; lines < 50; lines++) {
      const text = "a\nb\nc\nd\ne";
      const pages = pagesOf(sheet([row(block([filler(lines), { kind: "paragraph", style: "body", text }]))]));
      for (const page of pages) {
        const n = flowTexts(page).filter((t) => t.text.length === 1).length;
        expect(n).not.toBe(1);
        expect(n).not.toBe(4);
      }
    }
  });
  test("a block that may not be divided waits for the next page, unless this one would stay mostly empty", () => {
    const whole = (n: number) => row(block([filler(n)], { split: false, name: "whole" }));
    const on = (rows: SheetRow[]) =>
      pagesOf(sheet(rows)).map((p) => flowTexts(p).filter((t) => t.block === "whole").length);
    expect(on([row(block([filler(30)])), whole(30)])).toEqual([0, 30]);
    const early = on([row(block([filler(4)])), whole(45)]);
    expect(early[0]).toBeGreaterThan(30);
  });
  test("a character the font lacks is an error that names it and its block", () => {
    const { pages, diagnostics } = layoutSheet(
      sheet([row(block([{ kind: "heading", level: 2, text: "\u2300 34" }], { name: "valves" }))]),
      env,
    );
    expect(pages).toEqual([]);
    expect(diagnostics).toMatchObject([{ severity: "error", code: "layout/missing-glyph" }]);
    expect(diagnostics[0]!.message).toContain("\u2300");
    expect(diagnostics[0]!.message).toContain("valves");
  });
  test("a size that is not a number throws, naming the block", () => {
    const part: Part = { kind: "pictures", pictures: [{ image: "p", alt: "a" }], height: Number.NaN };
    expect(() => pagesOf(sheet([row(block([part], { name: "photos" }))]))).toThrow(/photos/);
    const drawn = {
      ...env,
      draw: () =>
        ({
          width: 1,
          height: 1,
          items: [
            {
              kind: "text",
              role: "label",
              text: "a",
              x: Number.POSITIVE_INFINITY,
              y: 0,
              size: 8.5,
              weight: "regular",
              color: "#000000",
            },
          ],
        }) as const,
    };
    const chart: Part = {
      kind: "charts",
      height: 50,
      charts: [{ title: "t", alt: "a", chart: { kind: "line", x: axis, y: axis, series: [] } }],
    };
    expect(() => layoutSheet(sheet([row(block([chart], { name: "flow" }))]), drawn)).toThrow(/flow.*drawing/);
  });
  test("a block with nothing to say takes no room", () => {
    const one = pagesOf(sheet([row(block([filler(2)])), row(block([])), row(block([filler(2)]))]));
    const two = pagesOf(sheet([row(block([filler(2)])), row(block([filler(2)]))]));
    expect(flowTexts(one[0]!).map((t) => t.y)).toEqual(flowTexts(two[0]!).map((t) => t.y));
  });
  test("type is of the sizes that sheets have, cautions at least 9 pt", () => {
    const sizes = new Set([24, 22, 20, 13, 11, 10.5, 9, 8.5]);
    for (const item of pagesOf(dummySheet()).flatMap(flowTexts)) {
      expect(sizes.has(item.size)).toBe(true);
      if (item.block === "cautions") expect(item.size).toBeGreaterThanOrEqual(9);
    }
  });
  test("what must stay takes more pages rather than smaller type, and says so", () => {
    const must = row(block([filler(120)], { priority: 100 }));
    const { pages, diagnostics } = layoutSheet(sheet([must], { onePage: true }), env);
    expect(pages.length).toBe(3);
    expect(diagnostics).toMatchObject([{ severity: "warning", code: "layout/one-page" }]);
    const two = layoutSheet(sheet([row(block([filler(70)], { priority: 100 }))], { onePage: true }), env);
    expect(two.pages.length).toBe(2);
    expect(two.diagnostics.map(({ message }) => message)).toEqual([expect.stringContaining("takes 2 pages")]);
  });
  test.each([
    [
      "a picture whose caption fills a page",
      "layout/too-tall",
      "error",
      6,
      { kind: "pictures", pictures: [{ image: "p", alt: "a", caption: "word\n".repeat(70) }], height: 300 },
    ],
    [
      "places to sign with a name of many lines",
      "layout/too-tall",
      "error",
      6,
      { kind: "signatures", labels: [{ role: "By", name: "word\n".repeat(70) }] },
    ],
    [
      "a table of more columns than letters have room",
      "layout/too-narrow",
      "error",
      1,
      {
        ...table([]),
        columns: Array.from({ length: 12 }, () => ({ title: "A", align: "left" })),
        rows: [Array.from({ length: 12 }, () => ({ text: "246.1" }))],
      },
    ],
    [
      "charts higher than the page",
      "layout/reduced",
      "warning",
      6,
      {
        kind: "charts",
        height: 900,
        charts: [{ title: "t", alt: "a", chart: { kind: "line", x: axis, y: axis, series: [] } }],
      },
    ],
  ] as const)("%s: says so, naming its block", (_, code, severity, span, part) => {
    const s = sheet([{ cells: [{ block: block([part as Part], { name: "greedy" }), from: 0, span }] }]);
    const { pages, diagnostics } = layoutSheet(s, env);
    expect(diagnostics).toMatchObject([{ severity, code }]);
    expect(diagnostics[0]!.message).toMatch(/^block greedy /);
    expect(pages.length > 0).toBe(severity === "warning");
  });
  test("a narrow column keeps its figures whole, and the widest words beside it give way", () => {
    const rows = [[{ text: "x".repeat(80) }, { text: "246.1" }]];
    const narrow = { cells: [{ block: block([{ ...table([]), rows }]), from: 0, span: 2 }] };
    expect(flowTexts(pagesOf(sheet([narrow]))[0]!).map(({ text }) => text)).toContain("246.1");
  });
  test("a masthead in a narrow cell stands one under the other", () => {
    const part = {
      kind: "masthead",
      name: "Harbour Head Works",
      lines: [{ text: "bench@harbourheads.example" }],
      logo: { image: "p", alt: "" },
    } as const;
    const pages = pagesOf(sheet([{ cells: [{ block: block([part]), from: 0, span: 2 }] }]));
    sound(pages);
    expect(new Set(flowTexts(pages[0]!).map(({ x }) => x)).size).toBe(1);
  });
  test("a foot line too long for its place ends in an ellipsis", () => {
    const long = "word ".repeat(60).trim();
    const s = sheet([row(block([filler(1)]))], { furniture: { left: long, middle: long, banner: long } });
    const pages = pagesOf(s);
    sound(pages);
    const foot = pages[0]!.items.flatMap((i) => (i.kind === "text" && i.text.startsWith("word w") ? [i.text] : []));
    expect(foot.length).toBe(3);
    for (const text of foot) expect(text.endsWith("…")).toBe(true);
  });
  test("charts side by side are told the most room that any of them wants for its labels", () => {
    const rooms: (number | undefined)[] = [];
    const chart = (title: string) => ({
      title,
      alt: "a",
      chart: { kind: "line", x: { ...axis, title }, y: axis, series: [] } as const,
    });
    layoutSheet(sheet([row(block([{ kind: "charts", height: 80, charts: [chart("a"), chart("abcd")] }]))]), {
      ...env,
      draw: (c, size, options) => {
        rooms.push(options.labelRoom);
        return dummyDraw(c, size);
      },
      labelRoom: (c) => c.x.title.length * 10,
    });
    expect(rooms).toEqual([40, 40]);
  });
  test("two cells of a row start on one line and keep to their columns of the grid", () => {
    const two: SheetRow = {
      cells: [
        { block: block([filler(3)], { name: "left" }), from: 0, span: 2 },
        { block: block([filler(5)], { name: "right" }), from: 2, span: 4 },
      ],
    };
    const texts = pagesOf(sheet([row(block([filler(2)])), two])).flatMap(flowTexts);
    const [left, right] = ["left", "right"].map((name) => texts.find((t) => t.block === name)!);
    expect(left!.y).toBe(right!.y);
    expect(right!.x - left!.x).toBeCloseTo(2 * (grid.column + grid.gutter), 1);
  });
});

describe("drawings at true size", () => {
  const shapes = { shapes: [], labels: [], scaleBar: { length: 20, parts: 4, label: "20 mm" } };
  const row = (widths: readonly number[]) => ({
    kind: "true-size" as const,
    figures: widths.map((width, i) => ({
      title: `Drawing ${i}`,
      drawing: { ...shapes, shapes: [{ steps: [{ kind: "move" as const, to: [width, 0] as const }] }] },
      alt: "a drawing",
      fallback: `Drawing ${i}: not drawn`,
    })),
    caption: "True size.",
  });
  const drawTrueSize: LayoutEnv["drawTrueSize"] = (content, room) => {
    const [step] = content.shapes[0]!.steps;
    const width = step?.kind === "move" ? step.to[0] : 0;
    return width > room ? undefined : { width, height: 100, items: [] };
  };
  const lay = (widths: readonly number[]) => {
    const block = { name: "plan", parts: [row(widths)], split: false, priority: 50 };
    const sheet = { ...dummySheet(), rows: [{ cells: [{ block, from: 0, span: 6 }] }] };
    const [page] = layoutSheet(sheet, { ...env, drawTrueSize }).pages;
    return {
      drawings: page!.items.filter((item) => item.kind === "drawing"),
      words: page!.items
        .filter((item) => item.kind === "text")
        .map(({ text }) => text)
        .join(" "),
    };
  };

  test("as many in a row as fit, none made smaller", () => {
    const { drawings } = lay([200, 200, 300, 300]);
    expect(drawings.map(({ drawing }) => drawing.width)).toEqual([200, 200, 300, 300]);
    expect(new Set(drawings.map(({ y }) => y)).size).toBe(3);
    expect(drawings[0]!.y).toBe(drawings[1]!.y);
  });

  test("one wider than the page gives way to its sentence, and takes no caption with it", () => {
    const both = lay([200, 900]);
    expect(both.drawings).toHaveLength(1);
    expect(both.words).toContain("Drawing 1: not drawn");
    expect(both.words).toContain("True size.");
    expect(lay([900]).words).not.toContain("True size.");
  });
});

test("an optional block stands only where it needs no further page", () => {
  const block = (name: string, lines: number, optional = false) => ({
    name,
    parts: Array.from({ length: lines }, () => ({ kind: "paragraph" as const, style: "body" as const, text: name })),
    split: true,
    priority: 50,
    optional,
  });
  const pagesOf = (...blocks: readonly ReturnType<typeof block>[]) =>
    layoutSheet({ ...dummySheet(), rows: blocks.map((one) => ({ cells: [{ block: one, from: 0, span: 6 }] })) }, env)
      .pages;
  const says = (pages: ReturnType<typeof pagesOf>, word: string) =>
    pages.some(({ items }) => items.some((item) => item.kind === "text" && item.text === word));
  const room = pagesOf(block("must", 5), block("may", 5, true));
  expect([room.length, says(room, "may")]).toEqual([1, true]);
  const full = pagesOf(block("must", 30), block("may", 20, true), block("small", 1, true));
  expect([full.length, says(full, "may"), says(full, "small")]).toEqual([1, false, true]);
  const essay = {
    ...block("essay", 1, true),
    parts: [{ kind: "paragraph", style: "body", text: "word\n".repeat(40) }] as const,
  };
  const long = layoutSheet(
    { ...dummySheet(), rows: [block("must", 30), essay].map((one) => ({ cells: [{ block: one, from: 0, span: 6 }] })) },
    env,
  );
  expect([long.pages.length, says(long.pages, "word")]).toEqual([1, false]);
});
