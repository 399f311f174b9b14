import { expect, test } from "vitest";
import type { DrawingItem } from "../../src/charts/drawing.ts";
import { scaleDrawing } from "../../src/charts/scale-drawing.ts";
import { imageSizes } from "../../src/pdf/pictures.ts";
import { evaluateJob } from "../../src/pipeline/evaluate.ts";
import { layOut } from "../../src/pipeline/lay-out.ts";
import { picturesOf, sheetContent } from "../../src/pipeline/render-sheet.ts";
import { demo, kit } from "./demo.ts";

/** Width of a phone's window that the page fills [px]. */
const SCREEN = 390;
/** Heights of text on that screen, at least [px]: of any, and of facts and cautions. */
const LEAST = { any: 8.8, facts: 11.8 } as const;

const layOutAttachment = (job: string) => {
  const { drawable } = evaluateJob(demo(job), {}, kit.io);
  const { sheet } = sheetContent(drawable!, "attachment", { paper: "Letter" }, kit);
  return layOut(sheet!, imageSizes(picturesOf(drawable!.project, drawable!.model)), kit);
};

const textSizes = (items: readonly DrawingItem[]) => items.flatMap((item) => (item.kind === "text" ? item.size : []));

test.each([
  "alder-lane/2026-014",
  "alder-lane/2026-026",
  "alder-lane/2026-031",
  "alder-lane/2026-040",
  "fennick/f-207",
  "fennick/f-251",
])("the attachment of %s is one full phone page with a panel, every text of it readable 390 px wide", (job) => {
  const { pages, fills, diagnostics } = layOutAttachment(`${job}.yaml`);
  expect(diagnostics).toEqual([]);
  expect(pages).toHaveLength(1);
  expect(fills[0]!.share).toBeGreaterThanOrEqual(0.88);
  const [page] = pages;
  expect([page!.width, page!.height]).toEqual([396, 704]);
  const scale = SCREEN / page!.width;
  const sizes = page!.items.flatMap((item) =>
    item.kind === "text" ? item.size : item.kind === "drawing" ? textSizes(item.drawing.items) : [],
  );
  expect(Math.min(...sizes) * scale).toBeGreaterThanOrEqual(LEAST.any);
  const facts = page!.items.filter(({ block }) => block === "key-row" || block === "cautions");
  const factSizes = facts.flatMap((item) => (item.kind === "text" ? item.size : []));
  expect(Math.min(...factSizes) * scale).toBeGreaterThanOrEqual(LEAST.facts);
  expect(
    page!.items.some((item) => item.kind === "drawing" && item.drawing.items.some(({ role }) => role === "curve")),
  ).toBe(true);
  const big = page!.items.filter((item) => item.kind === "text" && item.block === "headline" && item.size >= 20);
  expect(big.length).toBeGreaterThanOrEqual(2);
});

test("a drawing is enlarged as a whole", () => {
  const drawing = {
    width: 10,
    height: 20,
    items: [
      {
        kind: "path",
        role: "curve",
        d: [["M", 1, 2], ["C", 1, 2, 3, 4, 5, 6], ["Z"]],
        stroke: { color: "#000000", width: 1, dash: [5, 2.5] },
      },
      { kind: "text", role: "label", text: "a", x: 3, y: 4, size: 8.5, weight: "regular", color: "#000000" },
    ],
  } as const;
  expect(scaleDrawing(drawing, 2)).toEqual({
    width: 20,
    height: 40,
    items: [
      {
        kind: "path",
        role: "curve",
        d: [["M", 2, 4], ["C", 2, 4, 6, 8, 10, 12], ["Z"]],
        stroke: { color: "#000000", width: 2, dash: [10, 5] },
      },
      { kind: "text", role: "label", text: "a", x: 6, y: 8, size: 17, weight: "regular", color: "#000000" },
    ],
  });
});
