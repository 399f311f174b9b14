import type { BlockContent, Masthead, Part, Sheet, SheetCell, TrueSize, WriteIn } from "../../src/sheet/content.ts";
import { dummySheet } from "./dummy-sheet.ts";

const block = (name: string, parts: readonly Part[], more: Partial<BlockContent> = {}): BlockContent => ({
  name,
  parts,
  split: false,
  priority: 50,
  ...more,
});
const across = (...blocks: readonly BlockContent[]): { readonly cells: readonly SheetCell[] } => ({
  cells: blocks.map((one, i) => ({ block: one, from: (i * 6) / blocks.length, span: 6 / blocks.length })),
});
const words = (count: number, from = 0) => Array.from({ length: count }, (_, i) => `word${from + i}`).join(" ");
const axis = { title: "Lift", start: 0, end: 1, ticks: [0, 1], decimals: 0 };
const line = { kind: "line", x: axis, y: axis, series: [] } as const;
const bars = { kind: "bar", x: { title: "Lift", categories: ["a"] }, y: axis, bars: [], groups: [] } as const;
const scaled = { ...line, top: { title: "Lift over diameter", ticks: [] } };
const trueSize = (length: number): TrueSize => ({
  shapes: [],
  labels: [],
  scaleBar: { length, parts: 1, label: "10 mm" },
});

const masthead: Masthead = {
  kind: "masthead",
  name: "A Shop With Quite A Long Name For Its Column",
  strapline: "Heads, finished by hand",
  lines: [{ text: "3 Ropewalk Yard, Port Ellary" }, { text: "bench@shop.example", link: "mailto:bench@shop.example" }],
  logo: { image: "wide", alt: "the shop's mark" },
};

const boxes: WriteIn = {
  kind: "write-in",
  columns: [
    { title: "Lift", unit: "mm", share: 1 },
    { title: "First", share: 2 },
    { title: "Second", share: 2 },
    { title: "Remark", share: 3 },
  ],
  groups: [
    { text: "", span: 1 },
    { text: "Intake", span: 2 },
    { text: "", span: 1 },
  ],
  rows: Array.from({ length: 30 }, (_, i) => [`${i}.0`, "", i === 4 ? words(12) : "", i % 2 ? "typed already" : ""]),
};

const marks = ["up", "down", "level", "unknown"] as const;
const grouped: Part = {
  kind: "table",
  title: "Rows that belong together",
  columns: [
    { title: "Name", align: "left", weight: 2 },
    { title: "Flow", unit: "cfm", align: "decimal" },
    { title: "Said", align: "left" },
    { title: "Two words", unit: "%", align: "decimal", weight: 1 },
  ],
  groups: [
    { text: "", span: 1 },
    { text: "Intake", span: 2 },
    { text: "Change", span: 1 },
  ],
  rows: Array.from({ length: 42 }, (_, i) => [
    { text: i % 7 === 3 ? words(9, i) : `row${i}`, strong: i % 5 === 0 },
    { text: i % 6 === 5 ? "–" : `${i % 3 ? "+" : "−"}${(i * 7.25).toFixed(i % 3)}`, mark: marks[i % 4]! },
    { text: i % 4 ? "plainly" : "with a mark", ...(i % 4 ? {} : { mark: marks[i % 3]!, markLabel: "clearly" }) },
    { text: `${i}.5`, quiet: i % 2 === 0 },
  ]),
  rowHeads: true,
  fifths: false,
  together: Array.from({ length: 14 }, () => 3),
  notes: ["A note under the table.", words(30)],
};
const fifths: Part = {
  kind: "table",
  columns: [
    { title: "Lift", align: "decimal" },
    { title: "A head of several words", align: "decimal", unit: "cfm" },
  ],
  rows: Array.from({ length: 13 }, (_, i) => [{ text: `${i}.0` }, { text: `${i * i}` }]),
  rowHeads: false,
  fifths: true,
  notes: [],
};

/** Every kind of part in every shape it has, wide and narrow, long enough to be divided. */
export function everyPart(): Sheet {
  const { kind, name, lines } = masthead;
  return {
    ...dummySheet({ paper: "Letter" }),
    furniture: { left: `${words(14)}`, middle: words(9), banner: "DRAFT, not for the customer" },
    rows: [
      across(block("shop", [masthead])),
      across(
        block("narrow-shop", [masthead]),
        block("bare-shop", [{ kind, name, lines }]),
        block("third", [
          { kind: "heading", level: 2, text: "Beside it" },
          { kind: "paragraph", style: "body", text: words(6) },
        ]),
      ),
      across(
        block(
          "texts",
          [
            { kind: "heading", level: 1, text: "A title" },
            ...(["body", "small", "lead", "quiet", "caption"] as const).map(
              (style): Part => ({ kind: "paragraph", style, lead: "Not done:", text: words(40) }),
            ),
            { kind: "heading", level: 3, text: "A small heading" },
            { kind: "list", items: [{ text: words(20) }, { lead: "Not done:", text: words(4) }] },
            { kind: "list", compact: true, items: [{ text: words(20) }, { lead: "Not done:", text: words(4) }] },
            { kind: "caution", signal: "Caution", text: words(30) },
            { kind: "caution", signal: "Note", text: words(3) },
          ],
          { split: true },
        ),
      ),
      across(
        block("facts", [
          {
            kind: "facts",
            rows: [
              { label: "Name", value: "R. Tallow", note: "by telephone" },
              { label: "A label that is longer than its share", value: words(8), note: words(9) },
              { label: "Last", value: "1.0 mm", note: words(12) },
            ],
          },
        ]),
        block("compact", [
          {
            kind: "facts",
            compact: true,
            rows: [
              { label: "Name", value: "R. Tallow", note: "by telephone" },
              { label: "Order", value: "88-12" },
            ],
          },
        ]),
      ),
      across(
        block("numbers", [
          {
            kind: "headline",
            cells: [
              {
                label: "Intake",
                number: "246.1",
                unit: "cfm",
                was: "was 218.9",
                verdict: { mark: "up", text: "Clear" },
              },
              {
                label: "Exhaust, a longer label",
                number: "171.3",
                unit: words(5),
                verdict: { mark: "down", text: "Less" },
              },
              { label: "Mean", number: "+9.8", note: words(9), verdict: { mark: "level", text: words(4) } },
              { label: "Ratio", number: "10.8", verdict: { mark: "unknown", text: "Calculated" } },
              { label: "A fifth", number: "1", unit: "mm" },
            ],
          },
          {
            kind: "headline",
            large: true,
            cells: [
              {
                label: "Intake",
                number: "246.1",
                unit: "cfm",
                verdict: { mark: "up", text: "Clear gain" },
                was: "was 2",
              },
              { label: "Exhaust", number: "171.3", verdict: { mark: "unknown", text: "Not known" } },
            ],
          },
        ]),
      ),
      across(
        block("charts", [
          {
            kind: "charts",
            height: 120,
            charts: [line, bars, scaled].map((chart, i) => ({ title: `Chart ${i}`, chart, alt: "a" })),
            caption: words(25),
          },
          { kind: "charts", height: 90, charts: [{ title: words(30), chart: line, alt: "b" }] },
        ]),
      ),
      across(
        block("drawings", [
          {
            kind: "true-size",
            figures: [100, 130, 200, 40, 900].map((length, i) => ({
              title: i === 3 ? words(4) : `Port ${i}`,
              drawing: trueSize(length),
              alt: "c",
              fallback: "It is larger than the page.",
            })),
            caption: words(20),
          },
        ]),
      ),
      across(
        block("pictures", [
          {
            kind: "pictures",
            height: 130,
            pictures: ["wide", "tall", "wide", "wide", "tall", "wide"].map((image, i) => ({
              image,
              alt: "d",
              ...(i % 2 ? { caption: words(5 + i) } : {}),
            })),
          },
        ]),
      ),
      across(
        block("codes", [
          {
            kind: "code",
            alt: "e",
            cells: [
              [true, true, false, true],
              [false, true, true, true],
            ],
          },
        ]),
        block("signed", [
          { kind: "signatures", labels: [{ role: "Measured by", name: "J. Marrow" }, { role: "Received by" }] },
        ]),
      ),
      across(block("grouped", [grouped], { split: true })),
      across(block("fifths", [fifths], { split: true }), block("empty", [])),
      across(
        block(
          "form",
          [
            {
              kind: "blanks",
              rows: [
                [
                  { label: "Bore", unit: "mm", share: 2, lines: 1 },
                  { label: "Name", value: "R. Tallow", share: 3, lines: 1 },
                  { label: "Remarks", share: 1, lines: 3 },
                ],
                [{ label: words(20), unit: "mm", value: words(25), share: 1, lines: 2 }],
              ],
            },
            boxes,
          ],
          { split: true },
        ),
      ),
      { cells: [{ block: block("turned", [fifths]), from: 1, span: 4 }], newPage: true },
    ],
  };
}

/** The same kinds of part where they are plainer, shorter or wider than there. */
export function plainerParts(): Sheet {
  const { groups: _, ...ungrouped } = boxes;
  const plainTable = (count: number, more: Partial<Extract<Part, { kind: "table" }>> = {}): Part => ({
    kind: "table",
    columns: [
      { title: "Name", align: "left" },
      { title: "Size", align: "decimal" },
    ],
    rows: Array.from({ length: count }, (_, i) => [{ text: `row${i}` }, { text: `${i}.${i}` }]),
    rowHeads: true,
    fifths: true,
    notes: ["A note."],
    ...more,
  });
  const filler = (count: number): Part => ({ kind: "paragraph", style: "small", text: words(count) });
  return {
    ...dummySheet(),
    furniture: { left: words(40) },
    rows: [
      across(block("boxes", [{ ...ungrouped, rows: boxes.rows.slice(0, 3) }], { split: true })),
      across(block("one-box", [{ ...ungrouped, rows: [["1.0", "typed", "", ""]] }], { split: true })),
      across(block("six", [plainTable(6)], { split: true }), block("two", [plainTable(2, { fifths: false })])),
      across(block("filler", [filler(330)], { split: true })),
      across(block("seven", [plainTable(7)], { split: true }), block("six-again", [plainTable(6)], { split: true })),
      across(
        block("marks", [
          {
            kind: "table",
            columns: [
              { title: "Name", align: "left" },
              { title: "Said", align: "decimal" },
              { title: "Change", align: "decimal", unit: "%" },
            ],
            groups: [
              { text: "Both of a long name over narrow columns", span: 2 },
              { text: "", span: 1 },
            ],
            rows: [
              [
                { text: "a", mark: "up" },
                { text: "words that are no figure", mark: "level", markLabel: "even" },
                { text: "+1.25", mark: "up", markLabel: "more" },
              ],
              [{ text: "b" }, { text: "12.5" }, { text: "−0.5", strong: true }],
              [{ text: "c" }],
            ],
            rowHeads: false,
            fifths: false,
            notes: [],
          },
        ]),
      ),
      across(
        block("many-facts", [
          {
            kind: "facts",
            rows: Array.from({ length: 5 }, (_, i) => ({
              label: `Label ${i}`,
              value: words(1 + i * 4),
              note: words(i),
            })),
          },
        ]),
        block("one-fact", [{ kind: "facts", rows: [{ label: "Label", value: "value" }] }]),
      ),
      across(block("more-filler", [filler(250)], { split: true })),
      across(
        block(
          "late-facts",
          [{ kind: "facts", rows: Array.from({ length: 12 }, (_, i) => ({ label: `Label ${i}`, value: `${i}` })) }],
          { split: true },
        ),
      ),
      across(
        block("nine", [
          {
            kind: "headline",
            cells: Array.from({ length: 9 }, (_, i) => ({
              label: `Number ${i}`,
              number: `${10 ** i}`,
              ...(i % 2 ? { unit: "cfm" } : {}),
              ...(i % 3 ? {} : { verdict: { mark: marks[i % 4]!, text: words(3) }, was: "was 1" }),
            })),
          },
        ]),
      ),
      across(
        block("shop", [{ ...masthead, name: "Short", lines: [{ text: words(12) }] }]),
        block("code", [{ kind: "code", alt: "e", cells: Array.from({ length: 200 }, () => Array(200).fill(true)) }]),
      ),
      across(
        block("low-charts", [
          { kind: "heading", level: 2, text: words(60) },
          { kind: "charts", height: 2000, charts: [{ title: "Tall", chart: line, alt: "f" }], caption: words(12) },
        ]),
      ),
      across(
        block("high-pictures", [
          { kind: "pictures", height: 2000, pictures: [{ image: "tall", alt: "g", caption: words(3) }] },
        ]),
      ),
      across(block("words", [{ kind: "paragraph", style: "body", text: `${"x".repeat(200)} ${words(3)}` }])),
    ],
  };
}

/** One page of blocks that do not all fit it. */
export function tooMuch(): Sheet {
  const paragraph = (count: number): Part => ({ kind: "paragraph", style: "body", text: words(count) });
  return {
    ...dummySheet(),
    onePage: true,
    more: "More on the full sheet.",
    rows: [
      across(block("always", [paragraph(60)], { priority: 100 })),
      across(block("large", [paragraph(900)], { priority: 90 })),
      across(block("second", [paragraph(400)], { priority: 40 })),
      across(block("third", [paragraph(200)], { priority: 60 }), block("small", [paragraph(20)], { priority: 1 })),
    ],
  };
}
