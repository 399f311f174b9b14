import { expect, test } from "vitest";
import { evaluateJob } from "../../src/pipeline/evaluate.ts";
import { renderSheet } from "../../src/pipeline/render-sheet.ts";
import { shopWorld } from "../contract/made.ts";
import { pngOf } from "../raster/sample-photos.ts";
import { kit } from "./demo.ts";

/** Grey noise, which nothing packs: a linear congruential generator (constants of Numerical Recipes, from memory). */
const noise = (side: number, seed: number) => {
  let state = seed;
  const next = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state >>> 24;
  };
  return pngOf(side, side, () => [next(), next(), next()]);
};

const sheetWith = async (photos: number) => {
  const io = shopWorld({
    "/shop/shop.yaml": "shop: { name: Bench Works }\nunits: { length: in, flow: cfm, pressure: inH2O }\n",
    "/shop/j.yaml": `job: "1"
issued: 2026-03-18
customer: { name: B. Marlow }
head: { name: Two-valve alloy four }
stages:
  - name: As received
    intake: { valve: 1.654 }
photos: [${Array.from({ length: photos }, (_, i) => `{ file: p${i}.png, caption: Port ${i} }`).join(", ")}]
`,
    ...Object.fromEntries(Array.from({ length: photos }, (_, i) => [`/shop/p${i}.png`, noise(600, i + 1)])),
  });
  const { drawable, diagnostics } = evaluateJob("/shop/j.yaml", {}, io);
  expect(diagnostics.filter(({ severity }) => severity === "error")).toEqual([]);
  return renderSheet(drawable!, "handover", {}, { ...kit, io });
};

test("a sheet of five megabytes or more is named, with its size; one below is not", async () => {
  const [small, large] = [await sheetWith(2), await sheetWith(9)];
  expect(small.pdf!.length).toBeLessThan(5e6);
  expect(small.diagnostics.filter(({ code }) => code === "sheet/large-file")).toEqual([]);
  expect(large.pdf!.length).toBeGreaterThan(5e6);
  const { severity, message } = large.diagnostics.find(({ code }) => code === "sheet/large-file")!;
  expect(severity).toBe("warning");
  expect(message).toBe(`the handover has ${(large.pdf!.length / 1e6).toFixed(1)} MB, which some mailboxes refuse`);
}, 120_000);
