import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { SCHEMA_NAMES } from "../../src/job/json-schema.ts";
import { TEMPLATES } from "../../src/job/schema/job.ts";
import { schemaOf } from "./editor-help.ts";

const pathOf = (name: string) => new URL(`../../schemas/${name}.schema.json`, import.meta.url);
const textOf = (name: (typeof SCHEMA_NAMES)[number]) => `${JSON.stringify(schemaOf(name), null, 2)}\n`;

describe.each(SCHEMA_NAMES)("schemas/%s.schema.json", (name) => {
  test("equals the generated schema", () => {
    expect(readFileSync(pathOf(name), "utf8")).toBe(textOf(name));
  });
});

type Node = { readonly [key: string]: unknown };
const at = (schema: Node, ...keys: string[]): Node => keys.reduce<Node>((node, key) => node[key] as Node, schema);

test("an editor accepts a number where a porter types a bare one, and shows what the key means", () => {
  const throat = at(
    schemaOf("job"),
    ..."properties stages anyOf 0 items anyOf 0 properties intake anyOf 0 properties throat".split(" "),
  );
  expect(throat.anyOf).toEqual([{ $ref: "#/$defs/length-inherited" }, { $ref: "#/$defs/empty" }]);
  expect(throat.description).toBe("Smallest diameter under the seat");
});

test("unknown keys are refused in the editor too", () => {
  expect(schemaOf("job").additionalProperties).toBe(false);
});

/** Whether a key holds a map, whose own keys have the examples. */
const holdsMaps = (node: Node): boolean =>
  node.type === "object" ||
  [node.items, node.else, ...((node.anyOf ?? []) as Node[])].some((one) => one !== undefined && holdsMaps(one as Node));

test("the templates that an editor offers are those that come with the program", () => {
  const files = readdirSync(new URL("../../templates", import.meta.url)).filter((name) => name.endsWith(".yaml"));
  expect(TEMPLATES.map((name) => `${name}.yaml`).toSorted()).toEqual(files.toSorted());
});

test("no schema offers an empty value, or a key that the program refuses", () => {
  const offered = (key: string, value: unknown) => (key === "not" ? undefined : value);
  const texts = SCHEMA_NAMES.map((name) => JSON.stringify(schemaOf(name).properties, offered));
  expect(texts.join().match(/"null"|\bnull\b|propertyNames|deprecated/g)).toBe(null);
});

test("every key of every file has a description and an example", () => {
  const bare: string[] = [];
  const walk = (node: unknown, path: string) => {
    if (typeof node !== "object" || node === null) return;
    const { properties } = node as { properties?: Readonly<Record<string, Node>> };
    for (const [key, inner] of Object.entries(properties ?? {})) {
      if (inner.description === undefined) bare.push(`${path}.${key}: description`);
      if (inner.examples === undefined && !holdsMaps(inner)) bare.push(`${path}.${key}: example`);
    }
    // `not`, and the `anyOf` of the job, only list required keys.
    for (const [key, inner] of Object.entries(node))
      if (key !== "not" && !(path === "job" && key === "anyOf")) walk(inner, `${path}.${key}`);
  };
  for (const name of SCHEMA_NAMES) walk(schemaOf(name), name);
  expect(bare).toEqual([]);
});
