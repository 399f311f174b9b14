import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { jsonSchema, SCHEMA_NAMES } from "../../src/job/json-schema.ts";

const pathOf = (name: string) => new URL(`../../schemas/${name}.schema.json`, import.meta.url);
const textOf = (name: (typeof SCHEMA_NAMES)[number]) => `${JSON.stringify(jsonSchema(name), null, 2)}\n`;

describe.each(SCHEMA_NAMES)("schemas/%s.schema.json", (name) => {
  test("equals the generated schema", () => {
    expect(readFileSync(pathOf(name), "utf8")).toBe(textOf(name));
  });
});

type Node = { readonly [key: string]: unknown };
const at = (schema: Node, ...keys: string[]): Node => keys.reduce<Node>((node, key) => node[key] as Node, schema);

test("an editor accepts a number where a porter types a bare one, and shows what the key means", () => {
  const throat = at(jsonSchema("job"), "properties", "stages", "items", "properties", "intake", "properties", "throat");
  expect(throat.type).toEqual(["string", "number", "null"]);
  expect(throat.description).toBe("Smallest diameter under the seat");
});

test("unknown keys are refused in the editor too", () => {
  expect(jsonSchema("job").additionalProperties).toBe(false);
});

test("every key of every file has a description and an example", () => {
  const bare: string[] = [];
  const walk = (node: unknown, path: string) => {
    if (typeof node !== "object" || node === null) return;
    const { properties } = node as { properties?: Readonly<Record<string, Node>> };
    for (const [key, inner] of Object.entries(properties ?? {})) {
      if (inner.description === undefined) bare.push(`${path}.${key}: description`);
      if (inner.examples === undefined && inner.deprecated !== true) bare.push(`${path}.${key}: example`);
    }
    // The `anyOf` of the job only lists required keys.
    for (const [key, inner] of Object.entries(node))
      if (path !== "job" || key !== "anyOf") walk(inner, `${path}.${key}`);
  };
  for (const name of SCHEMA_NAMES) walk(jsonSchema(name), name);
  expect(bare).toEqual([]);
});
