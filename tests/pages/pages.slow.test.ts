import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { decode } from "fast-png";
import { describe, expect, test } from "vitest";
import type { Page, PlacedItem } from "../../src/layout/page.ts";
import type { Pixels } from "../../src/raster/encode-png.ts";
import { encodeGreyPng, greyLevels } from "../../src/raster/encode-png.ts";
import { rasterizePages } from "../../src/raster/page-renderer.ts";
import { dummySheet } from "../layout/dummy-sheet.ts";
import { pagesOf, paintPages } from "../pdf/a-pdf.ts";
import { demo, makeWhole } from "../whole/demo.ts";
import { alike, apart, type Grey } from "./compare.ts";

const DPI = 45;
const FOLDER = new URL(".", import.meta.url).pathname;
/** Sheets whose pages are kept: each template, both papers, both shops, what is odd about a job. */
const KEPT = [
  ["alder-lane/2026-014", "handover"],
  ["fennick/f-231", "engine"],
  ["fennick/f-251", "attachment"],
  ["fennick/fd-16", "catalogue"],
  ["alder-lane/2026-031", "handover"],
  ["fennick/f-207", "handover"],
] as const;

/** In the shades that a kept picture has. */
const rounded = (pixels: Pixels): Grey => ({
  ...pixels,
  shades: greyLevels(pixels).map((one) => Math.round(one / 17) * 17),
});
const kept = (file: string): Grey => {
  const { width, height, data } = decode(readFileSync(file));
  return { width, height, shades: data as Uint8Array };
};
const used = new Set<string>();

describe("pages look as they did when somebody last looked at them", () => {
  test.each(KEPT)("%s as %s", async (job, template) => {
    const { pdf } = await makeWhole(demo(`${job}.yaml`), { templates: [template] });
    for (const [i, pixels] of (await rasterizePages(pdf, DPI / 72)).entries()) {
      const file = join(FOLDER, `${job.replace("/", "_")}_${template}_${i + 1}.png`);
      used.add(file);
      if (process.env.UPDATE_PAGES) writeFileSync(file, encodeGreyPng(pixels));
      expect(existsSync(file), `${file} is not there: look at the page, then UPDATE_PAGES=1`).toBe(true);
      expect(readFileSync(file).length).toBeLessThanOrEqual(24_000);
      const difference = apart(rounded(pixels), kept(file));
      expect(alike(difference), `page ${i + 1}: ${JSON.stringify(difference)}`).toBe(true);
    }
  });
  test("no picture is kept of a page that is no more", () => {
    const files = readdirSync(FOLDER).filter((file) => file.endsWith(".png"));
    expect(files.filter((file) => !used.has(join(FOLDER, file)))).toEqual([]);
    expect(files.length).toBeGreaterThanOrEqual(12);
  });
});

describe("the comparison tells", () => {
  const pages = pagesOf(dummySheet());
  const picture = async (changed: (items: readonly PlacedItem[]) => readonly PlacedItem[]) => {
    const [page, ...others] = pages as readonly [Page, ...Page[]];
    const [pixels] = await rasterizePages(
      await paintPages([{ ...page, items: changed(page.items) }, ...others]),
      DPI / 72,
    );
    return rounded(pixels!);
  };
  const same = picture((items) => items);
  const down = (mm: number) => (item: PlacedItem) => {
    const dy = (mm * 72) / 25.4;
    return item.kind === "rule" ? { ...item, y1: item.y1 + dy, y2: item.y2 + dy } : { ...item, y: item.y + dy };
  };

  test("the same page is the same", async () =>
    expect(apart(await same, await picture((items) => items))).toEqual({ mean: 0, worst: 0 }));
  test("a block that moves by 3 mm, any of them", async () => {
    const names = [...new Set(pages[0]!.items.map(({ block }) => block))].filter((name) => name !== "furniture");
    expect(names.length).toBeGreaterThan(3);
    for (const name of names) {
      const moved = await picture((items) => items.map((item) => (item.block === name ? down(3)(item) : item)));
      expect(alike(apart(await same, moved)), name).toBe(false);
    }
  });
  test("a line that vanishes: of text, or a rule", async () => {
    for (const kind of ["text", "rule"] as const) {
      const first = pages[0]!.items.find((item) => item.kind === kind && item.block !== "furniture");
      expect(first).toBeDefined();
      const without = await picture((items) => items.filter((item) => item !== first));
      expect(alike(apart(await same, without)), kind).toBe(false);
    }
  });
});
