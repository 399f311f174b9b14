import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { CONTRACT } from "./contract.ts";
import { JOB_KEYS, PRODUCT_KEYS, SHOP_KEYS } from "./keys.ts";

const texts = new Map<string, string>();
const textOf = (file: string): string => {
  const known = texts.get(file) ?? readFileSync(new URL(`../${file}`, import.meta.url), "utf8");
  texts.set(file, known);
  return known;
};
/** A test's name as it is written: in quotes of any kind, on its own. */
const written = (name: string): readonly string[] => [`"${name}"`, `'${name}'`, `"${name.replaceAll('"', '\\"')}"`];

describe("each sentence of the contract is held by a test that is there", () => {
  test("no id stands twice", () => expect(new Set(CONTRACT.map(({ id }) => id)).size).toBe(CONTRACT.length));
  test.each(CONTRACT)("$id: $says", ({ file, test: name }) => {
    const text = textOf(file);
    expect([file, name, written(name).some((one) => text.includes(one))]).toEqual([file, name, true]);
  });
  test("and every key by a case of its own", () => {
    const keys = [...JOB_KEYS, ...PRODUCT_KEYS, ...SHOP_KEYS];
    expect(keys.length).toBeGreaterThan(150);
    for (const { from, to } of keys) expect(from).not.toBe(to);
  });
});
