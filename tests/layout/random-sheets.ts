import fc from "fast-check";
import type { Axis, BlockContent, Part, Sheet, SheetRow, Table, TableCell } from "../../src/sheet/content.ts";
import { dummySheet } from "./dummy-sheet.ts";

/** Words as people type them: three alphabets, part numbers without a blank, and nothing at all. */
const word = fc.oneof(
  { weight: 8, arbitrary: fc.stringMatching(/^[a-z]{1,12}$/) },
  { weight: 2, arbitrary: fc.constantFrom("Ιωάννης", "Шлифовка", "Łódź", "28\u00a0inH₂O", "±", "0.55–0.60") },
  { weight: 1, arbitrary: fc.stringMatching(/^[A-Z0-9-]{20,70}$/) },
);
const texts = (least: number, most: number) =>
  fc.array(word, { minLength: least, maxLength: most }).map((words) => words.join(" "));
const short = texts(1, 3);
const name = fc.oneof({ weight: 4, arbitrary: short }, { weight: 1, arbitrary: texts(8, 25) });
const running = fc.oneof({ weight: 6, arbitrary: texts(1, 60) }, { weight: 1, arbitrary: texts(100, 400) });
const maybe = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: undefined, freq: 2 });
const yes = fc.option(fc.constant(true as const), { nil: undefined });
const mark = fc.constantFrom("up" as const, "down" as const, "level" as const, "unknown" as const);
const figure = fc
  .tuple(fc.constantFrom("", "+", "−", "± "), fc.integer({ min: 0, max: 99_999 }), fc.integer({ min: 0, max: 3 }))
  .map(([sign, value, decimals]) => `${sign}${(value / 10 ** decimals).toFixed(decimals)}`);

const cell: fc.Arbitrary<TableCell> = fc.record(
  {
    text: fc.oneof(
      { weight: 12, arbitrary: figure },
      { weight: 1, arbitrary: fc.constant("–") },
      { weight: 1, arbitrary: fc.constant("") },
      { weight: 4, arbitrary: name },
    ),
    mark,
    markLabel: short,
    strong: fc.boolean(),
    quiet: fc.boolean(),
  },
  { requiredKeys: ["text"] },
);
const longCell: fc.Arbitrary<TableCell> = fc.record({ text: texts(60, 250), mark }, { requiredKeys: ["text"] });

/** Up to forty rows, and as many columns as a block's width should bear; now and then a cell that is an essay. */
const tableOf = (most: number): fc.Arbitrary<Part> =>
  fc
    .tuple(
      fc.integer({ min: 1, max: most }),
      fc.oneof(
        { weight: 3, arbitrary: fc.integer({ min: 0, max: 8 }) },
        { weight: 1, arbitrary: fc.integer({ min: 9, max: 40 }) },
      ),
    )
    .chain(([columns, rows]) =>
      fc.record(
        {
          kind: fc.constant("table" as const),
          title: name,
          columns: fc.array(
            fc.record(
              {
                title: fc.oneof(short, fc.constant("")),
                unit: fc.constantFrom("mm", "cfm", "%"),
                align: fc.constantFrom("left" as const, "decimal" as const),
              },
              { requiredKeys: ["title", "align"] },
            ),
            { minLength: columns, maxLength: columns },
          ),
          groups: fc.tuple(fc.integer({ min: 0, max: columns }), short).map(([first, text]) =>
            [
              { text: "", span: first },
              { text, span: columns - first },
            ].filter((group) => group.span > 0),
          ),
          rows: fc
            .tuple(
              fc.array(fc.array(cell, { minLength: columns, maxLength: columns }), {
                minLength: rows,
                maxLength: rows,
              }),
              fc.oneof(
                { weight: 4, arbitrary: fc.constant(undefined) },
                { weight: 1, arbitrary: fc.tuple(fc.nat(), fc.nat(), longCell) },
              ),
            )
            .map(([all, essay]) =>
              all.map((cells, r) =>
                essay && r === essay[0] % all.length
                  ? cells.map((own, c) => (c === essay[1] % cells.length ? essay[2] : own))
                  : cells,
              ),
            ),
          rowHeads: fc.boolean(),
          fifths: fc.boolean(),
          notes: fc.array(running, { maxLength: 3 }),
        },
        { requiredKeys: ["kind", "columns", "rows", "rowHeads", "fifths", "notes"] },
      ),
    )
    .map((part): Table => part);

const axis: Axis = { title: "Lift", start: 0, end: 1, ticks: [0, 1], decimals: 0 };
const chartsOf = (most: number): fc.Arbitrary<Part> =>
  fc.record(
    {
      kind: fc.constant("charts" as const),
      height: fc.oneof(
        { weight: 5, arbitrary: fc.integer({ min: 60, max: 320 }) },
        { weight: 1, arbitrary: fc.integer({ min: 600, max: 1500 }) },
      ),
      charts: fc.array(
        name.map((title) => ({ title, alt: "a", chart: { kind: "line" as const, x: axis, y: axis, series: [] } })),
        { minLength: 1, maxLength: most },
      ),
      caption: running,
    },
    { requiredKeys: ["kind", "height", "charts"] },
  );
const picture: fc.Arbitrary<Part> = fc.record({
  kind: fc.constant("pictures" as const),
  pictures: fc.array(
    fc.record(
      { image: fc.constantFrom("wide", "tall"), alt: fc.constant("a"), caption: running },
      { requiredKeys: ["image", "alt"] },
    ),
    { minLength: 1, maxLength: 10 },
  ),
  height: fc.integer({ min: 40, max: 2000 }),
});
export const pictures = new Map([
  ["wide", { width: 1600, height: 900 }],
  ["tall", { width: 300, height: 1400 }],
]);

const heading: fc.Arbitrary<Part> = fc.record({
  kind: fc.constant("heading" as const),
  level: fc.constantFrom(1 as const, 2 as const, 3 as const),
  text: name,
});

/** Every kind of part but a heading, for a block so many columns of the grid wide. */
const solidIn = (span: number): fc.Arbitrary<Part> =>
  fc.oneof(
    fc.record(
      {
        kind: fc.constant("masthead" as const),
        name,
        strapline: name,
        lines: fc.array(
          name.map((text) => ({ text })),
          { maxLength: 6 },
        ),
        logo: fc.constant({ image: "wide", alt: "logo" }),
      },
      { requiredKeys: ["kind", "name", "lines"] },
    ),
    fc.record(
      {
        kind: fc.constant("paragraph" as const),
        style: fc.constantFrom(
          "body" as const,
          "small" as const,
          "lead" as const,
          "quiet" as const,
          "caption" as const,
        ),
        lead: short,
        text: running,
      },
      { requiredKeys: ["kind", "style", "text"] },
    ),
    fc.record(
      {
        kind: fc.constant("list" as const),
        items: fc.array(fc.record({ lead: short, text: running }, { requiredKeys: ["text"] }), {
          minLength: 1,
          maxLength: 30,
        }),
        compact: fc.constant(true as const),
      },
      { requiredKeys: ["kind", "items"] },
    ),
    fc.record(
      {
        kind: fc.constant("facts" as const),
        rows: fc.array(fc.record({ label: name, value: name, note: name }, { requiredKeys: ["label", "value"] }), {
          minLength: 1,
          maxLength: 12,
        }),
        compact: fc.constant(true as const),
      },
      { requiredKeys: ["kind", "rows"] },
    ),
    { weight: 3, arbitrary: tableOf([1, 2, 3, 4, 7, 10][span - 1]!) },
    fc.record(
      {
        kind: fc.constant("headline" as const),
        large: yes.map((large) => large ?? false),
        cells: fc.array(
          fc.record(
            {
              label: name,
              number: figure,
              unit: fc.constantFrom("cfm", ": 1", "% of nothing in particular"),
              was: short,
              verdict: fc.record({ mark, text: short }),
              note: name,
            },
            { requiredKeys: ["label", "number"] },
          ),
          { minLength: 1, maxLength: 9 },
        ),
      },
      { requiredKeys: ["kind", "cells"] },
    ),
    chartsOf(span > 3 ? 3 : span > 1 ? 2 : 1),
    picture,
    fc.record({
      kind: fc.constant("signatures" as const),
      labels: fc.array(fc.record({ role: short, name }, { requiredKeys: ["role"] }), { minLength: 1, maxLength: 4 }),
    }),
    fc.record({
      kind: fc.constant("code" as const),
      alt: fc.constant("a"),
      cells: fc.integer({ min: 21, max: 57 }).map((n) => Array.from({ length: n }, () => Array<boolean>(n).fill(true))),
    }),
    fc.record({
      kind: fc.constant("caution" as const),
      signal: fc.constantFrom("Note" as const, "Caution" as const),
      text: texts(1, 45),
    }),
  );

/** Takes no room, so it gets no heading. */
const isEmpty = (part: Part) => part.kind === "table" && part.rows.length === 0;

/** Parts as blocks have them: a heading now and then, never last. */
const partsIn = (span: number) =>
  fc
    .array(fc.tuple(fc.option(heading, { nil: undefined }), solidIn(span)), { maxLength: 4 })
    .map((all) => all.flatMap(([head, part]) => (head && !isEmpty(part) ? [head, part] : [part])));

const blockIn = (span: number): fc.Arbitrary<Omit<BlockContent, "name">> =>
  fc.record({
    parts: fc.oneof({ weight: 9, arbitrary: partsIn(span) }, { weight: 1, arbitrary: heading.map((head) => [head]) }),
    split: fc.boolean(),
    priority: fc.oneof({ weight: 5, arbitrary: fc.integer({ min: 0, max: 99 }) }, fc.constant(100)),
  });

/** The grid's six columns in one to three cells. */
const spans = fc.constantFrom([6], [6], [6], [3, 3], [2, 4], [4, 2], [2, 2, 2], [5], [1, 5]);
const blockOf = new Map([1, 2, 3, 4, 5, 6].map((span) => [span, blockIn(span)] as const));
type Cell = { readonly from: number; readonly span: number; readonly block: Omit<BlockContent, "name"> };
const rowsOf = (most: number) =>
  fc
    .array(
      spans.chain((widths) =>
        fc.record({
          newPage: fc.boolean().map((once) => once && widths.length === 1),
          cells: fc.tuple(...widths.map((span) => blockOf.get(span)!)).map((all) =>
            all.map(
              (block, i): Cell => ({
                block,
                span: widths[i]!,
                from: widths.slice(0, i).reduce((a, b) => a + b, 0),
              }),
            ),
          ),
        }),
      ),
      { maxLength: most },
    )
    .map((all) =>
      all.map(
        ({ newPage, cells }, r): SheetRow => ({
          newPage,
          cells: cells.map((own, c) => ({ ...own, block: { ...own.block, name: `block-${r}-${c}` } })),
        }),
      ),
    );

/** Sheets of anything: all kinds of parts on random templates of so many rows, both papers, one page or many. */
export const sheetsOf = (most: number): fc.Arbitrary<Sheet> =>
  fc
    .record({
      rows: rowsOf(most),
      paper: fc.constantFrom("A4" as const, "Letter" as const),
      banner: maybe(name),
      left: name,
      middle: maybe(name),
      head: maybe(fc.record({ name, aside: name, draft: fc.constant(true as const) }, { requiredKeys: ["name"] })),
      onePage: fc.constantFrom(true, false, false, false),
    })
    .map(({ rows, paper, banner, left, middle, head, onePage }) => ({
      ...dummySheet({ paper }),
      rows,
      furniture: {
        left,
        ...(middle === undefined ? {} : { middle }),
        ...(head === undefined ? {} : { head }),
        ...(banner === undefined ? {} : { banner }),
      },
      onePage,
      more: "More on the full sheet.",
    }));
