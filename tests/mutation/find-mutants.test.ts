import { describe, expect, test } from "vitest";
import { findMutants } from "./find-mutants.ts";

/** What each mutant makes of a line. */
const made = (code: string) => findMutants("a.ts", code, 1).mutants.map(({ becomes }) => becomes);
/** The value of the last expression with one mutant on, 0 for none. */
function valueWith(code: string, on: number): unknown {
  const { source } = findMutants("a.js", code, 1);
  return new Function("$", source)({ is: (n: number) => n === on });
}

describe("mutants of", () => {
  test.each([
    ["sums", "const x = a + b * c;", ["const x = a - b * c;", "const x = a + b / c;"]],
    ["words put together", 'const x = "Words " + b;', []],
    ["a comparison", "const x = a < b;", ["const x = a <= b;", "const x = a >= b;"]],
    ["a choice", "const x = a ? b : c;", ["const x = true ? b : c;", "const x = false ? b : c;"]],
    ["a default", "const x = a ?? b;", ["const x = a;", "const x = b;"]],
    ["a chain", "const x = a?.b.c;", ["const x = a.b.c;"]],
    ["a call in a chain", "const x = a.filter(f)[k]!.c;", ["const x = a[k]!.c;"]],
    ["taken for each other", "const x = Math.min(a, b);", ["const x = Math.max(a, b);"]],
    ["signs", "const x = [-a, !b];", ["const x = [a, !b];", "const x = [-a, b];"]],
    ["numbers", "const x = [1, 2.54, 1e-6, 500];", ["[2, 2.54,", "[1, 2.5654,", " 0.001, 500]", " 505]"]],
    ["a tag, not words", 'const x = f("intake", "Two words");', ['const x = f("", "Two words");']],
    ["what is done", "list.push(x);", ["undefined;"]],
    ["both sides of and", "const x = a && b;", ["true && b", "a && true", "a || b"]],
    ["types, names and what is thrown", 'type A = "b" | 1; const x: A = { "c": y }; throw new Error("no" + 1);', []],
  ] as const)("%s", (_, code, wanted) => {
    const found = made(code);
    expect(found).toHaveLength(wanted.length);
    for (const one of wanted) expect(found.filter((line) => line.includes(one))).not.toEqual([]);
  });
});

test("all of them stand in one source, and the switch chooses", () => {
  const code = "const a = 3; const b = [1, 2].filter((n) => n > 1)[0] ?? 9; return a * b + 1;";
  const { mutants } = findMutants("a.js", code, 1);
  expect(valueWith(code, 0)).toBe(7);
  const values = mutants.map(({ becomes }, n) => [valueWith(code, n + 1), new Function(becomes)()]);
  expect(values.length).toBeGreaterThan(12);
  for (const [switched, written] of values) expect(switched).toEqual(written);
});

test("a mutant is named by its line, not by where the line is", () => {
  const [one] = findMutants("a.ts", "const x =\n  a -\n  b;", 1).mutants;
  const [moved] = findMutants("a.ts", "\n\n// A word.\nconst x =\n  a -\n    b;", 1).mutants;
  expect([one!.code, one!.becomes]).toEqual([moved!.code, moved!.becomes]);
});
