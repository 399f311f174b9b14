import { readFileSync, writeFileSync } from "node:fs";
import { Ajv2020 } from "ajv/dist/2020.js";
import { describe, expect, test } from "vitest";
import { demoFigures } from "./demo-figures.ts";
import { fullFigures } from "./full-figures.ts";
import { type JsonSchema, schemaOfType } from "./schema-of-type.ts";

const PATH = new URL("../../schemas/figures.schema.json", import.meta.url);
const CONTRACT = new URL("../../src/figures/figures.ts", import.meta.url).pathname;
const schema = schemaOfType(CONTRACT, "Figures", {
  title: "The figures of a job or product, as `headsheet figures --json` prints them",
  oneOf: ["job", "product"].map((key) => ({ type: "object", required: [key], properties: { [key]: true } })),
});
const text = `${JSON.stringify(schema, null, 2)}\n`;

test("schemas/figures.schema.json is what the type says", () => {
  if (process.env.UPDATE_SCHEMAS === "1") writeFileSync(PATH, text);
  expect(readFileSync(PATH, "utf8")).toBe(text);
});

const validate = new Ajv2020({ strict: true }).compile(JSON.parse(text));
const printed = (figures: unknown): unknown => JSON.parse(JSON.stringify(figures));

describe("the figures of every demo job, as printed, meet it", () => {
  test("there are demo jobs to look at", () => expect(demoFigures.length).toBeGreaterThan(12));
  test.each(demoFigures)("$name", ({ figures }) => {
    expect(validate(printed(figures)) ? [] : validate.errors).toEqual([]);
  });
});

test.each(fullFigures)("the figures of a job that uses every key meet it too", ({ figures }) => {
  expect(validate(printed(figures)) ? [] : validate.errors).toEqual([]);
});

/** Every object of the schema, wherever it stands. */
function objectsIn(node: unknown): JsonSchema[] {
  if (typeof node !== "object" || node === null) return [];
  const own = (node as JsonSchema).type === "object" ? [node as JsonSchema] : [];
  // `oneOf` only lists keys of which one is required.
  const { oneOf, ...inner } = node as JsonSchema;
  return [...own, ...Object.values(inner).flatMap(objectsIn)];
}

test("no object of it allows an unknown key, and there are as many as the contract has", () => {
  const objects = objectsIn(schema);
  expect(objects.length).toBeGreaterThan(30);
  for (const one of objects) expect(one.additionalProperties).toBe(false);
});

test("every key has a description", () => {
  const keys = objectsIn(schema).flatMap((one) => Object.entries(one.properties as Record<string, JsonSchema>));
  expect(keys.length).toBeGreaterThan(200);
  expect(keys.filter(([, { description }]) => String(description ?? "").length < 3)).toEqual([]);
});

test("every key of the contract occurs in some figures above, so that all of it was met", () => {
  const seen = new Set<string>();
  const walk = (value: unknown): void => {
    if (typeof value !== "object" || value === null) return;
    for (const [key, inner] of Object.entries(value)) {
      if (!Array.isArray(value)) seen.add(key);
      walk(inner);
    }
  };
  for (const { figures } of [...demoFigures, ...fullFigures]) walk(figures);
  const keys = new Set(objectsIn(schema).flatMap((one) => Object.keys(one.properties as object)));
  expect([...keys].filter((key) => !seen.has(key))).toEqual([]);
});

type Spot = { readonly holder: Record<string, unknown>; readonly key: string; readonly path: string };

/** Every value of an object, once for each place in the shape: the first item stands for its list. */
function spotsIn(value: unknown, path = "", seen = new Set<string>()): Spot[] {
  if (typeof value !== "object" || value === null) return [];
  return Object.keys(value).flatMap((key) => {
    const inner = (value as Record<string, unknown>)[key];
    const here = `${path}/${Array.isArray(value) ? "*" : key}`;
    const spot = { holder: value as Record<string, unknown>, key, path: here };
    const fresh = !seen.has(here);
    seen.add(here);
    return [...(fresh ? [spot] : []), ...spotsIn(inner, here, seen)];
  });
}

describe("figures that are not right do not meet it", () => {
  const rich = () => printed(demoFigures.find(({ name }) => name.endsWith("2026-014.yaml"))!.figures);
  /** Changes one value at a time, and lists where the schema accepted it. */
  function unminded(changed: (value: unknown, key: string) => readonly unknown[]): { tried: number; passed: string[] } {
    const figures = rich();
    let tried = 0;
    const passed: string[] = [];
    for (const { holder, key, path } of spotsIn(figures)) {
      const before = holder[key];
      for (const wrong of changed(before, key)) {
        holder[key] = wrong;
        tried++;
        if (validate(figures)) passed.push(path);
      }
      holder[key] = before;
    }
    expect(validate(figures)).toBe(true);
    return { tried, passed };
  }

  test("a number that is NaN prints as null, and is refused wherever it stands", () => {
    const { tried, passed } = unminded((value) => (typeof value === "number" ? [null] : []));
    expect(tried).toBeGreaterThan(80);
    expect(passed).toEqual([]);
  });
  test("a number typed as text is refused, but for a revision, which may be a letter", () => {
    const { passed } = unminded((value) => (typeof value === "number" ? [String(value)] : []));
    expect(passed).toEqual(["/revision"]);
  });
  test("text, lists and objects are refused as something else", () => {
    const { tried, passed } = unminded((value) => (typeof value === "number" ? [] : [7]));
    expect(tried).toBeGreaterThan(30);
    expect(passed.filter((path) => !path.endsWith("/at"))).toEqual([]);
  });
  test("an unknown key is refused in every object", () => {
    const objects = (value: unknown): value is Record<string, unknown> =>
      typeof value === "object" && value !== null && !Array.isArray(value);
    const { tried, passed } = unminded((value) => (objects(value) ? [{ ...value, unknown_key: 1 }] : []));
    expect(tried).toBeGreaterThan(20);
    expect(passed).toEqual([]);
  });
  test.each([
    ["a verdict of another wording", (f: Loose) => (f.comparisons[0].mean_change_verdict = "gain")],
    ["a missing title", (f: Loose) => delete f.title],
    ["a reading without its flow", (f: Loose) => delete f.stages[0].intake.readings[0].flow_m3_s],
    ["neither job nor product", (f: Loose) => delete f.job],
    ["both job and product", (f: Loose) => (f.product = "QH-100")],
    ["a point of a curve with three numbers", (f: Loose) => f.stages[0].intake.curve[0].push(1)],
    ["a point of a curve with one", (f: Loose) => f.stages[0].intake.curve[0].pop()],
    ["a fourth stage of lift", (f: Loose) => (f.stages[0].intake.readings[0].minimum_area_stage = 4)],
    ["doubtful: false", (f: Loose) => (f.stages[0].intake.readings[0].doubtful = false)],
  ])("%s", (_, change) => {
    const figures = rich();
    change(figures as Loose);
    expect(validate(figures)).toBe(false);
  });
});

// biome-ignore lint/suspicious/noExplicitAny: broken on purpose
type Loose = any;
