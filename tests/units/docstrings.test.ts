import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";

const folder = new URL("../../src/units/", import.meta.url);
// quantity.ts gives a number its unit and computes nothing.
const files = readdirSync(folder).filter((name) => name !== "quantity.ts");
const EXPORT =
  /\/\*\*((?:(?!\*\/)[\s\S])*)\*\/\nexport (?:const|function) (\w+)(?:<[^>]*>)?(?: = )?(?:\(([\s\S]*?)\)(?=:))?/g;

type Documented = { readonly name: string; readonly doc: string; readonly parameters: readonly string[] };

const documented = (source: string): readonly Documented[] =>
  [...source.matchAll(EXPORT)].map(([, doc = "", name = "", list = ""]) => ({
    name,
    doc: doc.replace(/^ \* ?/gm, ""),
    parameters: [...list.matchAll(/(\w+)(?=\??: | = )/g)].map((match) => match[1]!),
  }));

/** Numbers as near as the digits of the example say; everything else exactly. */
function near(expected: unknown): unknown {
  if (typeof expected === "number") return expect.closeTo(expected, 9);
  if (Array.isArray(expected)) return expected.map(near);
  if (expected === null || typeof expected !== "object") return expected;
  return Object.fromEntries(Object.entries(expected).map(([key, value]) => [key, near(value)]));
}

for (const file of files) {
  const source = readFileSync(new URL(file, folder), "utf8");
  describe(file, async () => {
    const module: Record<string, unknown> = await import(new URL(file, folder).href);
    test("every export has a docstring", () =>
      expect(
        documented(source)
          .map(({ name }) => name)
          .toSorted(),
      ).toEqual(Object.keys(module).toSorted()));

    for (const { name, doc, parameters } of documented(source)) {
      test(`${name}: no part is missing`, () => {
        expect(doc).toMatch(/^\n?\S.*\.$/m); // what it is
        expect(doc).toMatch(/^ {4}\S.* = /m); // the equation
        for (const parameter of parameters) expect(doc).toMatch(new RegExp(`@param\\s+${parameter}\\s+\\S`));
        if (parameters.length > 0) expect(doc).toMatch(/@returns\s+\S/);
        expect(doc).toMatch(/@source\s+\S/);
        expect(doc).toMatch(/@example\s+\S/);
      });
      test(`${name}: its example holds`, () => {
        const [, call, result] = /@example\s+(.*?) \/\/ (.*)$/m.exec(doc) ?? [];
        const names = Object.keys(module);
        const run = (code?: string): unknown => new Function(...names, `return (${code});`)(...Object.values(module));
        expect(run(call)).toEqual(near(run(result)));
      });
    }
  });
}
