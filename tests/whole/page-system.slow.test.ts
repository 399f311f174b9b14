import { join } from "node:path";
import { expect, test } from "vitest";
import type { LayoutResult } from "../../src/layout/layout-sheet.ts";
import { imageSizes } from "../../src/pdf/pictures.ts";
import { evaluateJob } from "../../src/pipeline/evaluate.ts";
import { templatesOf } from "../../src/pipeline/file-name.ts";
import { layOut } from "../../src/pipeline/lay-out.ts";
import { picturesOf, sheetContent } from "../../src/pipeline/render-sheet.ts";
import type { Sheet } from "../../src/sheet/content.ts";
import { archive } from "../archive/archive.ts";
import { writeArchive } from "../archive/write-archive.ts";
import { scratch } from "../cli/run.ts";
import {
  contradictingDots,
  dataHeight,
  dotStrips,
  flowPanels,
  headings,
  plotShare,
  sideMargins,
  tableWidths,
  typeSizes,
} from "../layout/page-measures.ts";
import { demoJobs, kit } from "./demo.ts";

type Measured = {
  readonly name: string;
  readonly template: string;
  readonly sheet: Sheet;
  readonly laid: LayoutResult;
};

/** Sheets of jobs, laid out but not painted. */
function layOutAll(paths: readonly string[], templates?: readonly string[]): readonly Measured[] {
  return paths.flatMap((path) => {
    const { drawable } = evaluateJob(path, {}, kit.io);
    if (!drawable) return [];
    return (templates ?? templatesOf(drawable.project, {})).map((template): Measured => {
      const { sheet } = sheetContent(drawable, template, {}, kit);
      const laid = layOut(sheet!, imageSizes(picturesOf(drawable.project, drawable.model)), kit);
      return { name: `${path.split("/").slice(-2).join("/")} ${template}`, template, sheet: sheet!, laid };
    });
  });
}

/** Least fill of a page by its place; attachments have no chart that could grow further. */
const LEAST = { first: 0.94, middle: 0.88, last: 0.55 } as const;
const leastOf = (template: string, place: keyof typeof LEAST) =>
  place === "first" && template === "attachment" ? 0.88 : LEAST[place];

/** Least share of a first page that plots cover. Of other sheets than a handover the first page has its charts beside tables. */
const LEAST_PLOTS = { handover: 0.09, other: 0.04 } as const;
/** Most headings and type sizes of a page. */
const MOST = { headings: 6, sizes: 9 } as const;

const tooEmpty = (sheets: readonly Measured[]) =>
  sheets.flatMap(({ name, template, laid }) =>
    laid.fills.flatMap(({ share, place, reason }, i) => {
      const page = `${name} page ${i + 1}`;
      return share >= leastOf(template, place) ? [] : [`${page}: ${(100 * share).toFixed(1)} % ${reason}`];
    }),
  );

/** A table neither of a column of the grid nor of the whole width. */
const isAwkward = (share: number) => share > 0.6 && share < 0.9;

/** Least share of a panel's height that the highest reading of a sheet takes. */
const LEAST_DATA = 0.85;

/** Readings fill the plots. */
function expectDataHigh({ name, sheet }: Measured): void {
  const panels = flowPanels(sheet);
  if (panels.length > 0) expect(dataHeight(panels), name).toBeGreaterThanOrEqual(LEAST_DATA);
}

test("pages of the demo sheets are full, their margins equal, their plots large", () => {
  const sheets = layOutAll(demoJobs);
  expect(sheets).toHaveLength(23);
  expect(tooEmpty(sheets)).toEqual([]);
  expect(sheets.flatMap(({ sheet }) => dotStrips(sheet)).length).toBeGreaterThan(8);
  for (const sheet of sheets) expectDataHigh(sheet);
  for (const { name, sheet } of sheets)
    for (const strip of dotStrips(sheet)) expect([name, contradictingDots(strip)]).toEqual([name, []]);
  for (const { name, template, laid } of sheets) {
    // A set-up sheet has a plan and tables, no plot.
    const least = template === "set-up" ? 0 : template === "handover" ? LEAST_PLOTS.handover : LEAST_PLOTS.other;
    expect(plotShare(laid.pages[0]!), name).toBeGreaterThanOrEqual(least);
    if (template === "handover") expect(headings(laid.pages[0]!).length, name).toBeLessThanOrEqual(MOST.headings);
    for (const page of laid.pages) {
      expect(typeSizes(page).size, name).toBeLessThanOrEqual(MOST.sizes);
      for (const { block, width } of tableWidths(page))
        expect(isAwkward(width / 493.2), `${name} ${block}`).toBe(false);
      const { left, right } = sideMargins(page);
      expect(Math.abs(left - right), name).toBeLessThan(0.05);
    }
  }
});

test("pages of fifty generated jobs are full, or all on them has grown; few are not full enough", () => {
  const folder = scratch();
  writeArchive(folder, 50);
  const jobs = Object.keys(archive(50)).filter((path) => path.endsWith(".yaml") && path !== "shop.yaml");
  const sheets = layOutAll(
    jobs.map((path) => join(folder, path)),
    ["handover", "engine", "attachment"],
  );
  const pages = sheets.flatMap(({ laid }) => laid.fills);
  expect(sheets.length).toBeGreaterThan(100);
  for (const { name, laid } of sheets)
    expect([name, laid.diagnostics.filter(({ severity }) => severity === "error")]).toEqual([name, []]);
  for (const sheet of sheets) expectDataHigh(sheet);
  for (const { name, sheet } of sheets)
    for (const strip of dotStrips(sheet)) expect([name, contradictingDots(strip)]).toEqual([name, []]);
  for (const { share, reason } of pages) expect(share > 0.99 || reason !== undefined).toBe(true);
  const empty = tooEmpty(sheets);
  expect(empty.length / pages.length, empty.join("\n")).toBeLessThan(0.08);
});
