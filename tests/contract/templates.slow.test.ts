import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { disk } from "../../src/io/disk.ts";
import { BLOCKS } from "../../src/sheet/blocks.ts";
import { inProcess, ROOT, scratch } from "../cli/run.ts";
import { SHOP, SHORT_SET } from "../project/shop-texts.ts";
import { demo } from "../whole/demo.ts";
import { LONG_FILES, LONG_JOB, LONG_PRODUCT } from "./long-job.ts";
import { pagesOf, sheetsOf, shopWorld } from "./made.ts";

const builtIn = (name: string) => readFileSync(join(ROOT, "templates", `${name}.yaml`), "utf8");

describe("a template of the shop's own", () => {
  const folder = scratch();
  const put = (name: string, text: string) => writeFileSync(join(folder, name), text);
  beforeAll(() => {
    mkdirSync(join(folder, "templates"));
    put("shop.yaml", SHOP);
    put("a.yaml", SHORT_SET.replace("customer:", "sheet: mine\ncustomer:"));
  });
  const make = () => inProcess(["make", "a.yaml", "--out", "out"], folder);

  test("copied and rearranged, it makes its own sheet under its own name", async () => {
    const rows = builtIn("handover").replace("template: handover", "template: mine");
    put("templates/mine.yaml", rows.replace("  - lead\n  - flow-panels\n", "  - flow-panels\n  - lead\n"));
    const { code, out } = await make();
    expect([code, out]).toEqual([0, "out/2026-014_rev1_mine_wedge-four_2026-03-18.pdf\n"]);
    const [first] = await pagesOf(readFileSync(join(folder, out.trim())));
    const [standard] = await pagesOf(
      [...(await sheetsOf(join(folder, "a.yaml"), disk, { templates: ["handover"] })).values()][0]!,
    );
    expect(first!.split(" ").toSorted()).toEqual(standard!.split(" ").toSorted());
    const lead = "Flow: the air one port passes";
    expect(standard).toContain(lead);
    expect(first!.indexOf(lead)).toBeGreaterThan(standard!.indexOf(lead));
  });
  test.each([
    ["a block that is none", "rows: [ masthead, flow-chrat ]", /flow-chart/, "template"],
    ["a span too wide", "rows:\n  - blocks: [ { block: masthead, span: 7 } ]", /1 to 6|span/, "template"],
    ["a key that is none", "rows: [ masthead ]\nrow: []", /rows/, "template"],
    ["code", "rows: [ masthead ]\nrun: !!js/function x", /tag/, "source"],
  ])("%s: refused with its line, and nothing is written", async (_, rows, hint, area) => {
    put("templates/mine.yaml", `template: mine\none_page: false\n${rows}\n`);
    const { code, out, err } = await make();
    expect([code, out]).toEqual([1, ""]);
    expect(err).toMatch(new RegExp(`^error\\[(${area}|job|project)/`, "m"));
    expect(err).toMatch(/--> templates\/mine\.yaml:\d+:\d+/);
    expect(err).toMatch(hint);
  });
  test("an unknown template name is refused at its place in the job", async () => {
    put("a.yaml", SHORT_SET.replace("customer:", "sheet: [ handover, mien ]\ncustomer:"));
    put("templates/mine.yaml", "template: mine\nrows: [ masthead ]\n");
    const { code, err } = await make();
    expect(code).toBe(1);
    expect(err).toMatch(/--> a\.yaml:3:/);
    expect(err).toContain("did you mean `mine`?");
  });
  test("cautions cannot be left out", async () => {
    put("a.yaml", SHORT_SET.replace("customer:", "sheet: mine\ncustomer:"));
    const { out } = await make();
    expect((await pagesOf(readFileSync(join(folder, out.trim())))).join(" ")).toMatch(/Caution|Note/);
  });
});

describe("on a one-page sheet", () => {
  const folder = scratch();
  const long = (template: string) => {
    writeFileSync(join(folder, "shop.yaml"), SHOP);
    const work = Array.from(
      { length: 60 },
      (_, i) => `  - Bowl of port ${i + 1} opened and blended to the seat by hand and by eye`,
    ).join("\n");
    writeFileSync(
      join(folder, "b.yaml"),
      `${SHORT_SET.replace(/work:[\s\S]*/, "")}work:\n  Ports:\n${work.replaceAll("  - ", "    - ")}\nspringless: true\n`.replace(
        "springless: true\n",
        "",
      ),
    );
    mkdirSync(join(folder, "templates"), { recursive: true });
    writeFileSync(join(folder, "templates", "one.yaml"), template);
    return sheetsOf(join(folder, "b.yaml"), disk, { templates: ["one"] });
  };
  const rows = (priority: number) =>
    `template: one\none_page: true\nrows:\n  - masthead\n  - title\n  - headline\n  - { block: flow-table, priority: ${priority} }\n  - { block: job, priority: 50 }\n  - cautions\n`;
  test("what does not fit is left out, lowest priority first, and says so", async () => {
    const pages = await pagesOf((await long(rows(60))).get("one")!);
    expect(pages).toHaveLength(1);
    expect(pages[0]).toContain("More on the full sheet.");
    expect(pages[0]).toContain("Flow readings");
    expect(pages[0]).not.toContain("Bowl of port 60");
  });
  test("the attachment of a full job is one page, headline and cautions on it", async () => {
    const pages = await pagesOf(
      (await sheetsOf(demo("alder-lane/2026-014.yaml"), disk, { templates: ["attachment"] })).get("attachment")!,
    );
    expect(pages).toHaveLength(1);
    expect(pages[0]).toMatch(/clear gain/i);
    expect(pages[0]).not.toMatch(/pinch/i);
  });
});

describe("a shop's template of every block there is", () => {
  const everything = `template: all\none_page: false\nrows:\n${Object.keys(BLOCKS)
    .map((block, i) => (i === 1 ? `  - { blocks: [${block}], new_page: true }\n` : `  - ${block}\n`))
    .join("")}`;
  const files = { ...LONG_FILES, "/shop/templates/all.yaml": everything };
  test.each([
    ["a job with every key", LONG_JOB.replace(/photos: .*/, "photos: [ { file: logo.png } ]")],
    ["a product", LONG_PRODUCT],
    ["the short set", SHORT_SET],
    ["a head that was not flowed", SHORT_SET.replaceAll(/ {4}flow: \|\n(?: {6}.*\n)+/g, "")],
  ])("%s is set and painted on both papers", async (_, text) => {
    for (const paper of ["A4", "Letter"] as const) {
      const sheets = await sheetsOf("/shop/a.yaml", shopWorld({ ...files, "/shop/a.yaml": text }), {
        templates: ["all"],
        paper,
      });
      const pages = await pagesOf(sheets.get("all")!);
      expect(pages.at(-1)).toMatch(/end of sheet/);
      expect(pages.join(" ")).not.toMatch(/NaN|undefined|Infinity|\[object/);
    }
  });
});
