import type { LayoutResult } from "../../src/layout/layout-sheet.ts";
import type { Page, PlacedItem, PlacedText, Tag } from "../../src/layout/page.ts";
import { types } from "../../src/layout/type-sizes.ts";
import type { BlockContent, HeadPlan, Part, Sheet, Title } from "../../src/sheet/content.ts";
import { boxOf, outside, overlaps } from "./boxes.ts";

/** Every law that a laid sheet breaks, in words; none for a sound one. */
export function brokenLaws(sheet: Sheet, laid: LayoutResult): readonly string[] {
  const named = sheet.rows.flatMap(({ cells }) => cells.map(({ block }) => block.name));
  const nameless = laid.diagnostics
    .filter(({ code, message }) => code !== "layout/one-page" && !named.some((name) => saysBlock(message, name)))
    .map(({ message }) => `names no block: ${message}`);
  const refused = laid.diagnostics.some(({ severity }) => severity === "error");
  if (refused) return [...nameless, ...(laid.pages.length > 0 ? ["pages in spite of an error"] : [])];
  return [
    ...nameless,
    ...places(sheet, laid.pages),
    ...laid.pages.flatMap(typeSizes),
    ...content(sheet, laid),
    ...headings(sheet, laid.pages),
    ...tableHeads(laid.pages),
    ...rowsOfTables(sheet, laid),
    ...onePage(sheet, laid),
  ];
}

export const saysBlock = (message: string, name: string) => ` ${message} `.includes(` ${name} `);

/** Nothing outside the live area, nothing on anything else. */
function places({ theme: { paper } }: Sheet, pages: readonly Page[]): readonly string[] {
  return pages.flatMap((page, p) => [
    ...outside(page, paper.margin).map((item) => `page ${p + 1}: outside: ${show(item)}`),
    ...overlaps(page).map(([a, b]) => `page ${p + 1}: ${show(a)} on ${show(b)}`),
  ]);
}

const show = (item: PlacedItem) =>
  `${item.block}/${item.kind === "text" ? item.text : item.kind} ${JSON.stringify(boxOf(item))}`;

const SIZES = new Set<number>(Object.values(types).map(({ size }) => size));

/** Type is of the table's sizes: never shrunk, never under 8 pt, cautions at least 9. */
function typeSizes(page: Page): readonly string[] {
  return textsOf(page)
    .filter(({ size }) => !SIZES.has(size) || size < 8)
    .map(({ text, size }) => `"${text}" is set in ${size} pt`);
}

const textsOf = (page: Page) => page.items.filter((item): item is PlacedText => item.kind === "text");
const flowOf = (page: Page) => page.items.filter(({ block }) => block !== "furniture");
const plain = (text: string) => text.replace(/\s/g, "");

/** Every element of every block that was kept stands there once, whole and in order. */
function content(sheet: Sheet, { pages, diagnostics }: LayoutResult): readonly string[] {
  const left = (name: string) =>
    diagnostics.some(({ code, message }) => code === "layout/left-out" && saysBlock(message, name));
  const seen = new Map<string, Map<string, string>>();
  for (const item of pages.flatMap(textsOf)) {
    const key = keyOf(item.tag);
    if (key === undefined) continue;
    const own = seen.get(item.block) ?? new Map<string, string>();
    seen.set(item.block, own.set(key, (own.get(key) ?? "") + plain(item.text)));
  }
  return sheet.rows.flatMap(({ cells }) =>
    cells.flatMap(({ block }) => {
      const found = [...(seen.get(block.name)?.values() ?? [])];
      const wanted = left(block.name) ? [] : elements(block);
      const at = Array.from({ length: Math.max(found.length, wanted.length) }, (_, i) => i).find(
        (i) => found[i] !== wanted[i],
      );
      return at === undefined ? [] : [`${block.name} has "${found[at]}" instead of "${wanted[at]}"`];
    }),
  );
}

/** What one element is to a reader: the lines of a paragraph, the whole of a cell. */
function keyOf(tag: Tag): string | undefined {
  if (tag.kind === "artifact" || tag.kind === "figure") return undefined;
  if (tag.kind === "cell") return `${tag.table}/${tag.row}/${tag.column}`;
  return tag.kind === "list-item" ? `${tag.id}/${tag.part}` : tag.id;
}

const elements = ({ parts }: BlockContent) =>
  parts
    .flatMap(textsIn)
    .map(plain)
    .filter((text) => text !== "");

const titleTexts = ({ kicker = "", aside = "", text, under = "", note = "" }: Omit<Title, "kind">) => [
  kicker,
  aside,
  text,
  under,
  note,
];

/** The names of the values, then each valve with its values, as rows of a table. */
const planTexts = ({ names, cylinders }: HeadPlan) => [
  ...names,
  ...cylinders.flatMap(({ intake, exhaust }) =>
    [...intake, ...exhaust].flatMap(({ label, side, values }) => [
      `${label} ${side}`,
      ...values.map(({ text }) => text),
    ]),
  ),
];

/** A part's texts in reading order, one an element. */
function textsIn(part: Part): readonly string[] {
  switch (part.kind) {
    case "masthead":
      return [part.name, part.strapline ?? "", ...part.lines.map(({ text }) => text)];
    case "cover":
      return [part.name, part.aside, part.title, part.text];
    case "picture-pairs":
      return [...part.heads, ...part.pairs.flatMap(({ lead, text }) => [lead, text])];
    case "closing-band":
      return [part.quote ?? "", part.heading ?? "", ...part.lines.map(({ text }) => text)];
    case "title":
      return titleTexts(part);
    case "hero":
      return [
        ...titleTexts(part.title),
        ...part.facts.flatMap(({ label, value }) => [label, value]),
        part.picture.caption ?? "",
      ];
    case "facts-row":
      return part.facts.flatMap(({ label, value }) => [label, value]);
    case "head-plan":
      return planTexts(part);
    case "ticks":
      return part.cautions.flatMap(textsIn);
    case "heading":
      return [part.text];
    case "paragraph":
      return [(part.lead ?? "") + part.text];
    case "list":
      return part.items.flatMap(({ lead = "", text }) => (plain(lead + text) === "" ? [] : ["–", lead + text]));
    case "facts":
      return part.rows.flatMap(({ label, value, note = "" }) => [label, value + note]);
    case "table":
      if (part.rows.length === 0) return part.notes;
      return [
        part.title ?? "",
        ...(part.groups ?? []).map(({ text }) => text),
        ...part.columns.map(({ title, unit = "" }) => title + unit),
        ...part.rows.flatMap((cells) => cells.map(({ text }) => text)),
        ...part.notes,
      ];
    case "headline":
      return part.cells.map(
        ({ label, number, unit = "", verdict, was = "", note = "" }) =>
          label + number + unit + (verdict?.text ?? "") + was + note,
      );
    case "charts":
      return [...part.charts.map(({ title }) => title), part.caption ?? ""];
    case "flow-panels":
      return [
        ...part.panels.flatMap(({ heading, number, verdict, was = "", strip }) => [
          heading + (number ? number.text + number.unit : "") + (verdict?.text ?? "") + was,
          strip?.title ?? "",
        ]),
        part.caption ?? "",
      ];
    case "lead":
      return [part.phrases.map(({ text }) => text).join("")];
    case "key-row":
      return part.pairs.flatMap(({ label, value, note = "" }) => [label, value + note]);
    case "pictures":
      return part.pictures.map(({ caption = "" }) => caption);
    case "signatures":
      return part.labels.map(({ role, name = "" }) => role + name);
    case "code":
      return [part.caption ?? ""];
    // Of bench forms, which have laws of their own in tests/form.
    case "true-size":
      return [...part.figures.flatMap(({ title, fallback: otherwise }) => [title, otherwise]), part.caption];
    case "blanks":
    case "write-in":
      throw new Error(`no sheet has ${part.kind}`);
    case "caution":
      return [`${part.signal}:${part.text}`];
  }
}

/** Something stands under each heading on its page, unless nothing stood above to push it on, or the template turns the page. */
function headings({ rows }: Sheet, pages: readonly Page[]): readonly string[] {
  const rowsOn = (page: Page) => flowOf(page).map(({ block }) => rowOf(block));
  // A row without content turns the page too.
  const turned = (page: Page, next: Page) =>
    rows.slice(Math.max(...rowsOn(page)) + 1, Math.max(...rowsOn(next)) + 1).some(({ newPage }) => newPage);
  return pages.slice(0, -1).flatMap((page, p) => {
    if (turned(page, pages[p + 1]!)) return [];
    const real = flowOf(page).filter(({ tag }) => tag.kind !== "artifact");
    return real.flatMap((item) => {
      if (item.kind !== "text" || item.tag.kind !== "heading") return [];
      const { top } = boxOf(item);
      const solid = real.filter(({ tag }) => tag.kind !== "heading");
      const followed = solid.some((other) => boxOf(other).top > top);
      const pushed = solid.some((other) => other.block === item.block || rowOf(other.block) < rowOf(item.block));
      return followed || !pushed ? [] : [`page ${p + 1} ends in the heading "${item.text}" of ${item.block}`];
    });
  });
}

/** Blocks are named after their row and cell in the template. */
const rowOf = (block: string) => Number(/^block-(\d+)-/.exec(block)?.[1] ?? Number.POSITIVE_INFINITY);

/** A table that goes on says so under its own head, on every page. */
function tableHeads(pages: readonly Page[]): readonly string[] {
  const begun = new Set<string>();
  return pages.flatMap((page, p) => {
    const tables = new Map<string, string>();
    for (const { tag, block } of flowOf(page)) if (isRow(tag)) tables.set(tag.table, block);
    return [...tables].flatMap(([table, block]) => {
      const first = !begun.has(table);
      begun.add(table);
      if (first) return [];
      const says = textsOf(page).some(
        (text) => text.block === block && text.tag.kind === "artifact" && /\(continued\)$/.test(text.text),
      );
      return says ? [] : [`page ${p + 1}: ${table} in ${block} goes on without its head`];
    });
  });
}

const isRow = (tag: Tag): tag is Tag & { kind: "cell" } => tag.kind === "cell" && tag.header !== "column";

/** Height of a block's headings on a page: one of many lines leaves no room for two rows. */
function headingHeight(page: Page, block: string): number {
  const boxes = textsOf(page)
    .filter((text) => text.block === block && text.tag.kind === "heading")
    .map(boxOf);
  return boxes.length === 0
    ? 0
    : Math.max(...boxes.map((box) => box.bottom)) - Math.min(...boxes.map((box) => box.top));
}

/** A row stands whole on one page, and not alone where two would fit; one that must be divided says so. */
function rowsOfTables(sheet: Sheet, { pages, diagnostics }: LayoutResult): readonly string[] {
  const { paper } = sheet.theme;
  const most = 0.4 * (paper.height - paper.margin.top - paper.margin.bottom);
  type Row = { readonly block: string; readonly pages: Set<number>; height: number };
  const tables = new Map<string, Map<number, Row>>();
  pages.forEach((page, p) => {
    const spans = new Map<string, { top: number; bottom: number }>();
    for (const item of flowOf(page)) {
      if (!isRow(item.tag)) continue;
      const { table, row } = item.tag;
      const rows = tables.get(table) ?? new Map<number, Row>();
      tables.set(table, rows);
      const own = rows.get(row) ?? { block: item.block, pages: new Set<number>(), height: 0 };
      rows.set(row, own);
      own.pages.add(p);
      const box = boxOf(item);
      const span = spans.get(`${table} ${row}`) ?? { top: box.top, bottom: box.bottom };
      spans.set(`${table} ${row}`, { top: Math.min(span.top, box.top), bottom: Math.max(span.bottom, box.bottom) });
      own.height = Math.max(own.height, span.bottom - span.top);
    }
  });
  return [...tables].flatMap(([table, rows]) => {
    const all = [...rows].sort(([a], [b]) => a - b).map(([, row]) => row);
    const divided = all
      .filter((row) => row.pages.size > 1)
      .filter(({ block }) => !diagnostics.some((d) => d.code === "layout/divided" && saysBlock(d.message, block)))
      .map(({ block }) => `a row of ${table} in ${block} is divided without a word`);
    const alone = all.filter((row, r) => {
      const beside = [all[r - 1], all[r + 1]].filter((other) => other !== undefined);
      const [page] = row.pages;
      if (beside.length === 0 || row.pages.size > 1 || beside.some((other) => other.pages.has(page!))) return false;
      return Math.max(...all.map(({ height }) => height)) * 2 + headingHeight(pages[page!]!, row.block) < most;
    });
    return [...divided, ...alone.map(({ block }) => `a row of ${table} in ${block} stands alone`)];
  });
}

/** One page where one was asked for, or a word that it could not be. */
function onePage(sheet: Sheet, { pages, diagnostics }: LayoutResult): readonly string[] {
  if (!sheet.onePage) return [];
  const said = diagnostics.some(({ code }) => code === "layout/one-page");
  return pages.length > 1 === said ? [] : [`${pages.length} pages where one was asked for, ${said ? "" : "not "}said`];
}
