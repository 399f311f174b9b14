import { expect, test } from "vitest";
import type { Page, PlacedItem } from "../../src/layout/page.ts";
import { paintPdf } from "../../src/pdf/paint.ts";
import { fonts, meta } from "../pdf/a-pdf.ts";
import { demo, demoJobs, makeWhole, ROOT } from "../whole/demo.ts";
import { catalog, get, type PdfFile, pagesOf, readPdf } from "./pdf-file.ts";
import { readAloud } from "./read-aloud.ts";
import { type Element, elementsOf } from "./structure-tree.ts";
import { textOf, type Value } from "./values.ts";

/** Titles of the outline, as a reader's side bar lists them. */
function outline(file: PdfFile): readonly string[] {
  const walk = (item: Value | undefined): readonly string[] =>
    item === undefined
      ? []
      : [textOf(get(file, item, "Title"))!, ...walk(get(file, item, "First")), ...walk(get(file, item, "Next"))];
  return walk(get(file, catalog(file), "Outlines", "First"));
}

test.each(demoJobs.map((path) => [path.slice(`${ROOT}jobs/`.length), path] as const))(
  "%s: read aloud, its headings are those of the outline, and pages follow each other",
  async (_, path) => {
    const file = readPdf(Buffer.from((await makeWhole(path)).pdf));
    const said = readAloud(file);
    expect(said.filter(({ type }) => /^H\d$/.test(type)).map(({ words }) => words)).toEqual(outline(file));
    expect(said.filter(({ words }) => words === "")).toEqual([]);
    // A table may go on overleaf while its neighbour in the next column begins here: each counts where it begins.
    const pages = pagesOf(file).map(({ number }) => number);
    const begins = (element: Element): number =>
      pages.indexOf(element.content[0]?.page ?? -1) >= 0
        ? pages.indexOf(element.content[0]!.page)
        : Math.min(...element.children.map(begins));
    const first = elementsOf(file)[0]!.children.map(begins);
    expect(first).toEqual(first.toSorted((a, b) => a - b));
  },
);

test("a handover, read aloud: what it is, whose, what changed, what to do; then the readings", async () => {
  const said = readAloud(readPdf(Buffer.from((await makeWhole(demo("alder-lane/2026-014.yaml"))).pdf)));
  const place = (pattern: RegExp) => said.findIndex(({ type, words }) => pattern.test(`${type} ${words}`));
  const wanted = [
    /^P Alder Lane Head Works/,
    /^H1 /,
    /^LI Customer H\. Ashgrove/,
    /^P .*clear gain/,
    /^Figure .*chart/i,
    /^TR .*0\.050 \|/,
    /^TR .*0\.500 \|/,
  ];
  const places = wanted.map(place);
  expect(
    places.every((at) => at >= 0),
    String(places),
  ).toBe(true);
  expect(places).toEqual(places.toSorted((a, b) => a - b));
});

const line = { kind: "text", x: 10, width: 40, size: 9, weight: "regular", color: "#000000", block: "b" } as const;
const cell = (row: number, text: string, y: number): PlacedItem => ({
  ...line,
  text,
  y,
  tag: { kind: "cell", table: "t", row, column: 0 },
});
const page = (...items: readonly PlacedItem[]): Page => ({ width: 200, height: 100, items });
const read = async (...pages: readonly Page[]) => readPdf(await paintPdf(pages, { fonts, images: new Map(), meta }));

test("a table over two pages is one table, its repeated head said once", async () => {
  const head = (y: number, tag: PlacedItem["tag"]): PlacedItem => ({ ...line, text: "Lift", y, tag });
  const file = await read(
    page(head(10, { kind: "cell", table: "t", row: 0, column: 0, header: "column" }), cell(1, "0.100", 30)),
    page(head(10, { kind: "artifact" }), cell(2, "0.200", 30)),
  );
  expect(elementsOf(file).filter(({ type }) => type === "Table").length).toBe(1);
  expect(readAloud(file).map(({ words }) => words)).toEqual(["Lift", "0.100", "0.200"]);
});

test("a shape in a cell says its words", async () => {
  const d = [["M", 0, 0], ["L", 5, 5], ["L", 0, 5], ["Z"]] as const;
  const mark: PlacedItem = {
    kind: "drawing",
    x: 60,
    y: 24,
    drawing: { width: 5, height: 5, items: [{ kind: "path", role: "shape", d, fill: "#000000" }] },
    block: "b",
    tag: { kind: "cell", table: "t", row: 0, column: 0, says: "clear gain" },
  };
  expect(readAloud(await read(page(cell(0, "+3.6", 30), mark)))).toEqual([{ type: "TR", words: "+3.6 clear gain" }]);
});
