import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { papers } from "../../src/theme/theme.ts";
import { collisions } from "../pdf/collisions.ts";
import { type ReadText, readBack } from "../pdf/read-back.ts";
import { demoJobs, makeWhole, ROOT } from "./demo.ts";

const name = (path: string) => path.slice(ROOT.length + "jobs/".length);
const jobs = demoJobs.map((path) => [name(path), path] as const);

test("there are demo jobs of two shops", () => {
  expect(jobs.length).toBeGreaterThanOrEqual(10);
  expect(new Set(jobs.map(([job]) => job.split("/")[0])).size).toBe(2);
});

/** Each on its shop's own paper; two of them on the other one too, for all share one live area. */
const both = /2026-014|f-231/;
const sheets = jobs.flatMap(([job, path]) =>
  (["A4", "Letter"] as const)
    .filter((paper) => both.test(job) || (paper === "A4") === job.startsWith("fennick"))
    .map((paper) => [job, paper, path, undefined] as const),
);
/** Sheets that a job has beside its first. */
const more = [
  ["alder-lane/2026-014.yaml", "Letter", "engine"],
  ["fennick/f-231.yaml", "A4", "engine"],
  ["fennick/f-251.yaml", "A4", "attachment"],
] as const;
const besides = more.map(([job, paper, template]) => [job, paper, `${ROOT}jobs/${job}`, template] as const);

const firstSheet = (path: string) => /^sheet: \[?(\w+)/m.exec(readFileSync(path, "utf8"))?.[1];

test.each([...sheets, ...besides])(
  "%s on %s: all text inside the live area, none on other text, in our font",
  async (_job, paper, path, template) => {
    const { pdf } = await makeWhole(path, template ? { paper, templates: [template] } : { paper });
    const pages = await readBack(pdf);
    // An attachment is a page for a phone, whatever the shop's paper.
    const phone = (template ?? firstSheet(path)) === "attachment";
    const { width, height, margin } = papers[phone ? "phone" : paper];
    for (const page of pages) {
      expect([Math.round(page.width), Math.round(page.height)]).toEqual([Math.round(width), Math.round(height)]);
      expect(page.texts.filter((text) => !inside(text, width, height, margin)).map(({ text }) => text)).toEqual([]);
      expect(collisions(page)).toEqual([]);
      expect([...new Set(page.texts.map(({ font }) => font))].filter((font) => !/^IBMPlexSans/.test(font))).toEqual([]);
      expect(page.texts.filter(({ text }) => /NaN|undefined|Infinity|\[object|null/.test(text))).toEqual([]);
      expect(page.texts.filter(({ size }) => size < 8).map(({ text }) => text)).toEqual([]);
    }
    pages.forEach((page, i) => {
      expect(
        page.texts.some(
          ({ text }) =>
            text ===
            (phone
              ? "1 of 1, end"
              : `Page ${i + 1} of ${pages.length}${i === pages.length - 1 ? " · end of sheet" : ""}`),
        ),
      ).toBe(true);
    });
  },
);

test("a handover reads in order", async () => {
  const { pdf } = await makeWhole(`${ROOT}jobs/alder-lane/2026-014.yaml`);
  const text = (await readBack(pdf)).flatMap((page) => page.texts.map((one) => one.text)).join(" ");
  const wanted = [
    "Alder Lane Head Works",
    "Two-valve alloy four",
    "H. Ashgrove",
    "Intake flow is up",
    "What we did",
    "Ruth Calloway",
    "Flow readings",
    "Intake sizes",
    "end of sheet",
  ];
  const places = wanted.map((one) => text.indexOf(one));
  expect(
    places.every((place) => place >= 0),
    `missing: ${wanted.filter((_, i) => places[i]! < 0)}`,
  ).toBe(true);
  expect(places).toEqual(places.toSorted((a, b) => a - b));
});

/** Baseline of the foot below the live area [pt]. */
const FOOT = 12;
const TEN_MM = (10 * 72) / 25.4;

/** The foot stands below the live area and keeps 10 mm from the edge; all else keeps inside. */
function inside(
  { x, y, width, size, angle }: ReadText,
  paperWidth: number,
  paperHeight: number,
  margin: { left: number; right: number; top: number; bottom: number },
): boolean {
  const [w, h] = Math.abs(angle) > 45 ? [size, width] : [width, size];
  const slack = 0.6;
  return (
    x >= margin.left - slack &&
    x + w <= paperWidth - margin.right + slack &&
    y - h >= margin.top - 2 &&
    y <= paperHeight - (y > paperHeight - margin.bottom + FOOT ? TEN_MM : margin.bottom) + slack
  );
}
