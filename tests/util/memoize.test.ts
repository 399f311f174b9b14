import { expect, test } from "vitest";
import { memoize } from "../../src/util/memoize.ts";

const counted = (max: number) => {
  const computed: string[] = [];
  const join = memoize(
    (one: string, other: string) => {
      computed.push(`${one} ${other}`);
      return one === "" ? undefined : `${one}${other}`;
    },
    { max, key: (one, other) => `${one} ${other}` },
  );
  return { join, computed };
};

test("equal calls are computed once, an undefined result too", () => {
  const { join, computed } = counted(9);
  expect([join("a", "b"), join("ab", ""), join("a", "b"), join("", "c"), join("", "c")]).toEqual([
    "ab",
    "ab",
    "ab",
    undefined,
    undefined,
  ]);
  expect(computed).toEqual(["a b", "ab ", " c"]);
});

test("at most `max` results are kept, the oldest goes first", () => {
  const { join, computed } = counted(2);
  for (const one of ["a", "b", "c", "b", "c", "a", "b"]) join(one, "");
  expect(computed).toEqual(["a ", "b ", "c ", "a ", "b "]);
});

test("a call that throws is computed again", () => {
  let calls = 0;
  const failing = memoize(
    () => {
      calls++;
      if (calls === 1) throw new Error("once");
      return calls;
    },
    { max: 1, key: () => 0 },
  );
  expect(() => failing()).toThrow("once");
  expect([failing(), failing()]).toEqual([2, 2]);
});
