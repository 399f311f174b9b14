import { existsSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parse, stringify } from "yaml";
import { disk } from "../../src/io/disk.ts";
import { SCHEMA_NAMES, type SchemaName } from "../../src/job/json-schema.ts";
import { readJob } from "../../src/job/read-job.ts";
import { starterJob, starterProduct } from "../../src/job/starter/starter.ts";
import { listJobs } from "../../src/project/list-jobs.ts";
import { ROOT } from "../cli/run.ts";
import { SHORT_SET } from "../project/shop-texts.ts";
import { accepts, editorFaults, places, SLIP_NAMES, schemaOf, slipped } from "./editor-help.ts";
import { FULL_JOB, FULL_PRODUCT, FULL_SHOP } from "./full-job.ts";

const FACTS = { number: "1", issued: "2026-03-14" };

describe("an editor underlines nothing in what the checker accepts", () => {
  test.each<[string, SchemaName, string]>([
    ["a job with every key", "job", FULL_JOB],
    ["a product with every key", "job", FULL_PRODUCT],
    ["a shop with every key", "shop", FULL_SHOP],
    ["the short set", "job", SHORT_SET],
    ["the starter job", "job", starterJob(FACTS)],
    ["the starter product", "job", starterProduct(FACTS)],
    ["keys with nothing behind them", "job", `${SHORT_SET}received:\nremarks:\nengine:\nproduct:\nparts:\n  -\n`],
    ["names that are no words", "job", SHORT_SET.replace('"2026-014"', "012").replace("As received", "true")],
  ])("%s", (_, name, text) => expect(editorFaults(name, text)).toEqual([]));

  const demos = [
    ...listJobs(join(ROOT, "jobs"), disk).map((path) => [path, "job"] as const),
    ...["alder-lane", "fennick"].map((shop) => [join(ROOT, "jobs", shop, "shop.yaml"), "shop"] as const),
    ...["attachment", "catalogue", "engine", "handover"].map(
      (name) => [join(ROOT, "templates", `${name}.yaml`), "template"] as const,
    ),
  ];
  test.each(demos.map(([path, name]) => [path.slice(ROOT.length), name, path] as const))(
    "%s, whose first line names its schema",
    (_, name, path) => {
      const text = readFileSync(path, "utf8");
      expect(editorFaults(name, text)).toEqual([]);
      const schema = /^# yaml-language-server: \$schema=(\S+)\n/.exec(text)?.[1] ?? "";
      expect(schema.endsWith(`/${name}.schema.json`)).toBe(true);
      expect(existsSync(join(dirname(path), schema))).toBe(true);
    },
  );
});

test.each<[string, SchemaName, string]>([
  ["an unknown key", "job", FULL_JOB.replace("remount:", "remuont:")],
  ["an unknown key in a port", "job", FULL_JOB.replace("throat: 1.525", "thraot: 1.525")],
  ["an unknown key of a shop", "shop", FULL_SHOP.replace("paper:", "papers:")],
  ["a customer that is a word", "job", FULL_JOB.replace(/customer: \{.*\}/, "customer: Bob")],
  ["stages that are a map", "job", SHORT_SET.replace(/stages:[\s\S]*/, "stages: { name: Finished }")],
  ["a word that is none of those", "job", FULL_JOB.replace("meter: orifice", "meter: orfice")],
  ["no date", "job", FULL_JOB.replace(/issued:.*\n/, "")],
  ["no customer", "job", FULL_JOB.replace(/customer:.*\n/, "")],
  ["a customer with nothing behind it", "job", FULL_JOB.replace(/customer:.*\n/, "customer:\n")],
  ["no name of a stage", "job", FULL_JOB.replace("name: As received\n    date", "date")],
  ["no head", "job", SHORT_SET.replace(/head:.*\n/, "")],
  ["a product without samples", "job", FULL_PRODUCT.replace(/samples:.*\n/, "")],
  ["a template without rows", "template", "template: mine\n"],
  ["an unknown option of a block", "template", "template: mine\nrows: [ { block: masthead, wide: 2 } ]\n"],
])("an editor underlines %s", (_, name, text) => expect(editorFaults(name, text)).not.toEqual([]));

type Node = { readonly [key: string]: unknown };

test.each(SCHEMA_NAMES)("%s: every example is what its key takes", (name) => {
  const wrong: string[] = [];
  const walk = (node: unknown, path: string) => {
    if (typeof node !== "object" || node === null) return;
    for (const [key, inner] of Object.entries(((node as Node).properties ?? {}) as Record<string, Node>))
      for (const example of (inner.examples ?? []) as unknown[])
        if (!accepts(whole, inner, example)) wrong.push(`${path}.${key}: ${JSON.stringify(example)}`);
    for (const [key, inner] of Object.entries(node)) if (key !== "examples") walk(inner, `${path}.${key}`);
  };
  const whole = schemaOf(name);
  walk(whole, name);
  expect(wrong).toEqual([]);
});

/** Errors of form, which an editor must report as well; the meaning of numbers only the program checks. */
const FORM = new Set(["job/unknown-key", "job/missing", "job/shape", "job/empty"]);

/** The disagreement of program and editor on a text, if any. */
function disagreement(text: string): string | undefined {
  const { diagnostics } = readJob("job.yaml", text);
  const errors = diagnostics.filter(({ severity }) => severity === "error");
  const underlined = editorFaults("job", text);
  if (errors.length === 0 && underlined.length > 0) return `only an editor refuses: ${underlined.join("; ")}`;
  const form = errors.find(({ code }) => FORM.has(code) && code !== "job/empty");
  return form && underlined.length === 0 ? `only the checker refuses: ${form.code} ${form.message}` : undefined;
}

const JOB = parse(FULL_JOB) as unknown;
const PLACES = places(JOB).filter((path) => path.length > 0);
const slips = fc.tuple(fc.constantFrom(...PLACES), fc.constantFrom(...SLIP_NAMES));

test("slips anywhere in a job: what the checker accepts an editor accepts, and faults of form both see", () => {
  expect(PLACES.length).toBeGreaterThan(250);
  fc.assert(
    fc.property(slips, ([path, slip]) => {
      expect([path, slip, disagreement(stringify(slipped(JOB, path, slip), { lineWidth: 0, nullStr: "" }))]).toEqual([
        path,
        slip,
        undefined,
      ]);
    }),
    { numRuns: Number(process.env.EVERY_SLIP ?? 40), seed: 31 },
  );
});
