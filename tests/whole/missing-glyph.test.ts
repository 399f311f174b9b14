import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { render } from "../../src/diagnostics/render.ts";
import { evaluateJob } from "../../src/pipeline/evaluate.ts";
import { renderSheet } from "../../src/pipeline/render-sheet.ts";
import { pagesOf, sheetsOf, shopWorld } from "../contract/made.ts";
import { kit, ROOT } from "./demo.ts";

const job = readFileSync(`${ROOT}jobs/fennick/f-207.yaml`, "utf8");
const shop = readFileSync(`${ROOT}jobs/fennick/shop.yaml`, "utf8").replace("logo: logo.svg, ", "");

/** What is told of a job with the shop's sheet beside it. */
async function told(files: Readonly<Record<string, string>>, template = "handover"): Promise<string> {
  const io = shopWorld({ "/shop/shop.yaml": shop, ...files });
  const { drawable, diagnostics, sources } = evaluateJob("/shop/a.yaml", {}, io);
  if (!drawable) throw new Error(render(diagnostics, sources));
  const made = await renderSheet(drawable, template, {}, { ...kit, io });
  expect(made.pdf).toBeUndefined();
  expect(made.diagnostics.every(({ code }) => code === "layout/missing-glyph")).toBe(true);
  return render(made.diagnostics, new Map([...sources, ...made.sources]));
}

test("what the font lacks is shown where it was typed, each place once, with what to write", async () => {
  const typed = job
    .replace("condition: Valves stuck and freed with oil;", "condition: Bore ⌀ 85 and ⌀ 86;")
    .replace("result: weeps", "result: 田中 weeps");
  const said = await told({ "/shop/a.yaml": typed });
  expect(said.match(/\^+/g)).toHaveLength(4);
  expect(said).toContain("/shop/a.yaml:12:19");
  expect(said).toContain("/shop/a.yaml:12:28");
  expect(said).toContain("the font has no `⌀` (U+2300)");
  expect(said).toContain("hint: write `Ø`");
  expect(said).toContain("the font has no `田` (U+7530)");
  expect(said).toContain("in Latin, Greek or Cyrillic letters");
});

test("a shop's own file and a block of text are pointed into, too; a remark of mine is not", async () => {
  const typed = job
    .replace("  would not, since", "  would ㎜ not, since")
    .replace("# Old cast-iron", "# ㎜ Old cast-iron");
  const said = await told({
    "/shop/a.yaml": typed,
    "/shop/shop.yaml": shop.replace("strapline: Cylinder", "strapline: ★ Cylinder"),
  });
  expect(said.match(/\^+/g)).toHaveLength(2);
  expect(said).toMatch(/--> \/shop\/shop\.yaml:5:14/);
  const line = typed.split("\n").findIndex((text) => text.includes("would ㎜")) + 1;
  expect(said).toContain(`/shop/a.yaml:${line}:9`);
  expect(said).toContain("hint: write `mm`");
});

test("Latin, Greek and Cyrillic names come out as they were typed", async () => {
  const names = ["Łukasz Żółć-Ångström", "Ελευθερία Παπαδοπούλου", "Щёголев Їжакевич", "Đặng Thị Ngọc"];
  const typed = job.replace("Wetherfold Steam and Engine Museum", names.join(" · "));
  const [sheet] = (
    await sheetsOf("/shop/a.yaml", shopWorld({ "/shop/shop.yaml": shop, "/shop/a.yaml": typed }))
  ).values();
  const text = (await pagesOf(sheet!)).join(" ");
  for (const name of names) expect(text).toContain(name);
});
