import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { disk } from "../../src/io/disk.ts";
import { starterJob, starterProduct } from "../../src/job/starter/starter.ts";
import { listJobs } from "../../src/project/list-jobs.ts";
import { BLOCKS } from "../../src/sheet/blocks.ts";
import { ROOT, scratch } from "../cli/run.ts";
import { SHORT_SET } from "../project/shop-texts.ts";
import { FULL_JOB, FULL_PRODUCT, FULL_SHOP } from "./full-job.ts";
import { type LanguageServer, startLanguageServer } from "./language-server.ts";

const folder = scratch();
let server: LanguageServer;
beforeAll(async () => {
  server = await startLanguageServer();
});
afterAll(() => server?.close());

const under = (name: string, text: string) =>
  `# yaml-language-server: $schema=${join(ROOT, "schemas", `${name}.schema.json`)}\n${text}`;
const FACTS = { number: "1", issued: "2026-03-14" };
const messages = async (name: string, text: string) => {
  const path = join(folder, `${name}.yaml`);
  writeFileSync(path, "");
  return (await server.squiggles(path, text)).map(({ line, message }) => `${line}: ${message}`);
};

describe("the language server underlines nothing in a valid file", () => {
  const files = [
    ...listJobs(join(ROOT, "jobs"), disk),
    ...["alder-lane", "fennick"].map((shop) => join(ROOT, "jobs", shop, "shop.yaml")),
    ...["handover", "engine", "attachment", "catalogue"].map((name) => join(ROOT, "templates", `${name}.yaml`)),
  ];
  test.each(files.map((path) => [path.slice(ROOT.length), path] as const))("%s", async (_, path) => {
    expect(await server.squiggles(path)).toEqual([]);
  });
  test.each([
    ["a job with every key", "job", FULL_JOB],
    ["a product with every key", "job", FULL_PRODUCT],
    ["a shop with every key", "shop", FULL_SHOP],
    ["the short set", "job", SHORT_SET],
    ["the starter job", "job", starterJob(FACTS)],
    ["the starter product", "job", starterProduct(FACTS)],
    ["keys with nothing behind them", "job", `${SHORT_SET}received:\nremarks:\nengine:\nproduct:\nparts:\n  -\n`],
  ])("%s", async (title, name, text) => expect(await messages(title, under(name, text))).toEqual([]));
});

describe("it underlines what a schema can say", () => {
  const port = (keys: string) => SHORT_SET.replace(/ {4}intake:.*/, `    intake: { ${keys} }`);
  test.each([
    ["a unit of another kind", port("throat: 34 kPa"), /does not match the pattern/],
    ["a length below zero", port("throat: -34"), /below the exclusive minimum of 0/],
    ["a key that there is not", port("thraot: 34"), /thraot is not allowed/],
    ["a count in words", port("valves: two"), /does not match the pattern/],
    ["a day in another order", SHORT_SET.replace(/issued:.*/, "issued: 18.3.2026"), /does not match the pattern/],
    ["a percentage without its sign", `${SHORT_SET}bench: { accuracy: 5 }\n`, /above the exclusive maximum of 1/],
    ["a bare lift", `${SHORT_SET}engine: { intake_cam: { lift: 0.4 } }\n`, /lift is not allowed/],
    ["one fact stated twice", `${SHORT_SET}engine: { piston: { dish: 5 cc, dome: 5 cc } }\n`, /not allowed/],
    ["a job that is a product as well", `${SHORT_SET}product: { part: x, name: y }\n`, /not allowed/],
  ])("%s", async (title, text, wanted) => {
    expect((await messages(title, under("job", text))).join("\n")).toMatch(wanted);
  });
});

describe("it offers every allowed value, and nothing that is refused", () => {
  const sheets = ["handover", "engine", "attachment", "catalogue"];
  const seat = ["angle", "width", "top", "bottom", "outside", "form"];
  const port = "stages:\n  - name: A\n    intake:\n      ";
  const rows = "template: mine\nrows:\n  - ";
  const blocks = Object.keys(BLOCKS);
  test.each([
    ["job", "sheet: |\n", sheets],
    ["job", "sheet: [ |]\n", sheets],
    ["job", "sheet:\n  - |\n", sheets],
    ["job", "report:\n  hold_back:\n    - |\n", ["pinch", "sections", "seat cuts", "port volume"]],
    ["job", "report:\n  lifts:\n    - |\n", ["low", "mid", "high", "cam", "peak"]],
    ["job", "report: { embed: |}\n", ["none", "readings", "figures", "job"]],
    ["job", "paper: |\n", ["A4", "Letter"]],
    ["job", "draft: |\n", ["true", "false"]],
    ["job", `${port}seat: { a| }\n`, seat],
    ["job", `${port}seat:\n        |\n`, seat],
    ["template", `${rows}|\n`, blocks],
    ["template", `${rows}{ block: m| }\n`, blocks],
    ["template", `${rows}[ masthead, | ]\n`, blocks],
    ["template", `${rows}- |\n`, blocks],
    ["template", `${rows}{ | }\n`, ["block", "grow"]],
  ] as const)("%s, %j", async (name, text, wanted) => {
    const offered = await server.offers(under(name, text));
    expect(offered).toEqual(expect.arrayContaining([...wanted]));
    const never = text.startsWith("draft") ? /null/ : /null|true|false|object Object|array item/;
    expect(offered.filter((label) => never.test(label))).toEqual([]);
  });
  test("a map in a template row has no blocks as keys, a list no maps to add", async () => {
    expect(await server.offers(under("template", `${rows}{ | }\n`))).not.toContain("masthead");
    expect((await server.offers(under("template", `${rows}[ | ]\n`))).toSorted()).toEqual(blocks.toSorted());
  });
  test("no bare lift of a cam", async () => {
    const offered = await server.offers(under("job", "engine:\n  intake_cam:\n    |\n"));
    expect(offered).toContain("net_lift");
    expect(offered).not.toContain("lift");
  });
});
