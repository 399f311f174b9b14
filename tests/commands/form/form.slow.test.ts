import { decode } from "fast-png";
import { beforeAll, describe, expect, test } from "vitest";
import { pageImages } from "../../../src/raster/page-renderer.ts";
import { metres } from "../../../src/units/quantity.ts";
import { inProcess, scratch } from "../../cli/run.ts";
import { check } from "../../conformance/check.ts";
import { demo } from "../../whole/demo.ts";
import { bare, formOf, words } from "./form-of.ts";

const ALDER = demo("alder-lane/2026-014.yaml");
const folder = scratch();
const twelve = Array.from({ length: 12 }, (_, i) => metres((i + 1) * 0.00127));

let alder: Awaited<ReturnType<typeof formOf>>;
beforeAll(async () => {
  alder = await formOf(ALDER);
});

describe("the bench form", () => {
  test("a stage and a cylinder that are asked for stand on it; a new stage has only its name", async () => {
    const old = words((await formOf(ALDER, { stage: "as received", cylinder: 3 })).pages).split("\n");
    expect(old).toContain("As received");
    expect(old).toContain("3");
    const fresh = words((await formOf(ALDER, { stage: "With new guides" })).pages);
    expect(fresh).toContain("With new guides");
  });

  test("a bench that reads per cent has a box for its range", async () => {
    const path = bare(
      folder,
      'stages: [ { name: In, bench: { reads: percent, ranges: { "1": { intake: 100 cfm } } } } ]\n',
    );
    const text = words((await formOf(path)).pages);
    expect(text.match(/^Range$/gm)).toHaveLength(2);
    expect(text).toContain("% of range");
  });

  test.each(["A4", "Letter"] as const)("one stage with twelve lifts is one page of %s", async (paper) => {
    // The second page is that of the set-up.
    const { pages } = await formOf(ALDER, { lifts: twelve }, paper);
    expect(pages).toHaveLength(2);
    expect(words(pages)).toContain("Page 1 of 2");
    expect(words(pages.slice(1))).toContain("Set-up: job 2026-014");
  });

  test("more lifts take more pages: each with the ticket, the table's head again, every lift once", async () => {
    const lifts = Array.from({ length: 40 }, (_, i) => metres((i + 1) * 0.000254));
    const { pages, pdf } = await formOf(ALDER, { lifts });
    expect(pages.length).toBeGreaterThan(1);
    for (const [i, page] of pages.entries()) {
      expect(words([page])).toContain("Bench form 2026-014");
      expect(words([page])).toContain(`Page ${i + 1} of ${pages.length}`);
      const isSetUp = words([page]).includes("Set-up: job");
      if (!isSetUp && /^0\.\d{3}$/m.test(words([page]))) expect(words([page])).toContain("Lift in");
    }
    const all = words(pages).split("\n");
    for (const lift of lifts) expect(all.filter((one) => one === (lift / 0.0254).toFixed(3))).toHaveLength(1);
    expect(check(Buffer.from(pdf))).toEqual([]);
  });

  test("no text leaves its box in the head of the sizes, whatever the unit", async () => {
    for (const path of [ALDER, demo("fennick/f-251.yaml")]) {
      const { pages } = await formOf(path);
      const head = pages[0]!.texts.filter(({ text }) => /^(Valve|Stem|Throat|Seat|Pinch|Port volume) ?/.test(text));
      expect(head).toHaveLength(7);
      for (const [i, one] of head.entries())
        expect(one.x + one.width).toBeLessThan(head[i + 1]?.x ?? pages[0]!.width - 15 * (72 / 25.4));
    }
  });

  test("a copy in two tones at 50 % keeps every rule and every text", async () => {
    const dpi = 200;
    const { data, width, height, channels } = decode((await pageImages(alder.pdf, dpi))[0]!);
    // The renderer gives a page whole pixels.
    const page = alder.pages[0]!;
    const px = (pt: number) => Math.round((pt * width) / page.width);
    const py = (pt: number) => Math.round((pt * height) / page.height);
    const black = (x: number, y: number) => data[(y * width + x) * channels]! < 128;
    const near = (x: number, y: number) =>
      [-1, 0, 1].some((dx) => [-1, 0, 1].some((dy) => black(px(x) + dx, py(y) + dy)));
    for (const { points } of alder.pages[0]!.paths) {
      const [[x1, y1], [x2, y2]] = points as unknown as [[number, number], [number, number]];
      for (const t of [0.05, 0.3, 0.5, 0.7, 0.95])
        expect([x1, y1, x2, y2, t, near(x1 + (x2 - x1) * t, y1 + (y2 - y1) * t)]).toEqual([x1, y1, x2, y2, t, true]);
    }
    for (const { text, x, y, width: wide, size } of alder.pages[0]!.texts) {
      let dark = 0;
      for (let column = px(x); column < px(x + wide); column++)
        for (let row = py(y - size * 0.8); row <= py(y); row++) if (black(column, row)) dark++;
      expect([text, dark > 8 * text.replaceAll(/[\s.,:'-]/g, "").length]).toEqual([text, true]);
    }
  });

  test("tagged, and keeps every rule of a sheet; the same job makes the same bytes", async () => {
    expect(check(Buffer.from(alder.pdf))).toEqual([]);
    expect(Buffer.compare(alder.pdf, (await formOf(ALDER)).pdf)).toBe(0);
  });

  test("for a starter: a PDF under the name of a sheet", async () => {
    await inProcess(["new", "mine.yaml"], folder);
    const ran = await inProcess(["form", "mine.yaml", "--lifts", "0.1, 0.2 8mm", "--paper", "Letter"], folder);
    expect(ran).toMatchObject({ code: 0, err: "" });
    expect(ran.out).toMatch(/^out\/mine_rev1_form_what-you-call-this-head_2026-03-14\.pdf\n$/);
  });

  test("a product has no bench form", async () => {
    const ran = await inProcess(["form", demo("fennick/fd-16.yaml")], folder);
    expect(ran).toMatchObject({ code: 2, out: "" });
    expect(ran.err).toContain("is a product");
  });
});
