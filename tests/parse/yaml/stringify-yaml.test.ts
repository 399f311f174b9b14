import { describe, expect, test } from "vitest";
import { parse } from "yaml";
import { parseYaml } from "../../../src/parse/yaml/parse-yaml.ts";
import { inlineYaml, stringifyYaml, type YamlData } from "../../../src/parse/yaml/stringify-yaml.ts";
import { fc } from "../../figures/seeded.ts";

const ODD = ["", "no", "~", "12", "a: b", "a, b", "{x}", "# x", "- x", "../a b.yaml", '"', "|", "a ", "---", "<<"];
const TABLES = ["lift\tflow\n\n  0.1\t20\n", "a\n", "a\n\n", "a \n", "At\n1\n", "a\u0085b\n", "a\u2028b\n"];
const text = fc.oneof(
  fc.string({ unit: "grapheme" }),
  fc.string({ unit: "binary-ascii" }),
  fc.string({
    unit: fc.constantFrom("a", "1", " ", "\n", "\t", "\u0085", "\u2028", "\ufeff", "\u00a0", "é", "😀", "#", ":"),
  }),
  fc.constantFrom(...ODD, ...TABLES),
);
const key = fc.oneof(
  text.filter((name) => name.trim() !== "" && name !== "<<"),
  fc.constantFrom("flow", "head_1", "Intake ports", "3"),
);
/** Maps and lists in one another, down to texts and numbers. */
const { map, value } = fc.letrec<{ value: YamlData; map: { readonly [key: string]: YamlData } }>((tie) => ({
  value: fc.oneof(
    { maxDepth: 3, depthSize: "small" },
    text,
    fc.integer(),
    fc.boolean(),
    fc.array(tie("value")),
    tie("map"),
  ),
  map: fc.dictionary(key, tie("value"), { noNullPrototype: true }),
}));

/** As YAML without types has it: every scalar is the text as typed. */
const asTexts = (data: YamlData): unknown =>
  typeof data !== "object"
    ? String(data)
    : Array.isArray(data)
      ? data.map(asTexts)
      : Object.fromEntries(Object.entries(data).map(([name, item]) => [name, asTexts(item)]));

const isBlank = (data: unknown) => typeof data === "string" && data.trim() === "";

/** A blank text is an absent one to our reader. */
const withoutBlank = (data: unknown): unknown => {
  if (typeof data !== "object" || data === null) return data;
  if (Array.isArray(data)) return data.filter((item) => !isBlank(item)).map(withoutBlank);
  const stated = Object.entries(data).filter(([, item]) => !isBlank(item));
  return Object.fromEntries(stated.map(([name, item]) => [name, withoutBlank(item)]));
};

function expectReadBack(yaml: string, data: YamlData) {
  expect(parse(yaml, { schema: "failsafe" })).toEqual(asTexts(data));
  // Some of these texts are refused in a job, which does not change what was read.
  expect(parseYaml("a.yaml", yaml).document?.value).toEqual(withoutBlank(asTexts(data)));
}

describe("what is written is read back equal, by our reader and by the package", () => {
  test.each(["always", "when-needed"] as const)("in block style, quotes %s", (quote) =>
    fc.assert(
      fc.property(map, (data) => {
        const whole = { first: "x", ...data };
        expectReadBack(stringifyYaml(whole, quote), whole);
      }),
    ),
  );
  test("on one line", () =>
    fc.assert(
      fc.property(value, (data) => {
        const yaml = `job: ${inlineYaml(data)}\n`;
        expect(yaml.indexOf("\n")).toBe(yaml.length - 1);
        expectReadBack(yaml, { job: data });
      }),
    ));
  test("always quoted, a text stays a text for readers that know numbers and true or false", () =>
    fc.assert(
      fc.property(map, (data) => {
        expect(parse(stringifyYaml({ first: "x", ...data }, "always"))).toEqual({ first: "x", ...data });
      }),
    ));
});

test("a table is a literal block, whatever is quoted; maps and lists are indented by two", () => {
  const data = { name: "Intake", stages: [{ flow: "lift  flow\n0.1   20\n", at: [[1, "2"]] }], none: [] };
  const block = (name: string, two: string) =>
    `name: ${name}\nstages:\n  - flow: |\n      lift  flow\n      0.1   20\n    at:\n      -\n        - 1\n        - ${two}\nnone: []\n`;
  expect(stringifyYaml(data, "always")).toBe(block('"Intake"', '"2"'));
  expect(stringifyYaml(data, "when-needed")).toBe(block("Intake", "2"));
  expect(inlineYaml(["Intake ports", "no", "45 %", "a: b", {}])).toBe('[ Intake ports, "no", 45 %, "a: b", {} ]');
});
