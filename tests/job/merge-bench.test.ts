import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { mergeBench } from "../../src/job/merge-bench.ts";
import type { JobBench } from "../../src/job/schema/job.ts";

/** Merges benches with arbitrary values, whose meaning does not matter here. */
const merged = (...benches: readonly (object | undefined)[]): unknown => mergeBench(...(benches as JobBench[]));

describe("a bench over another", () => {
  test("wins key by key, inside its maps as well, and keeps the keys that it does not state", () => {
    const shop = { name: "bench", leakage: { intake: 1, exhaust: 2 }, ranges: { 1: 50, 2: 80 } };
    const job = { leakage: { exhaust: 3 }, ranges: { 2: 81, 3: 120 } };
    expect(merged(shop, undefined, job)).toEqual({
      name: "bench",
      leakage: { intake: 1, exhaust: 3 },
      ranges: { 1: 50, 2: 81, 3: 120 },
    });
    expect(shop.ranges).toEqual({ 1: 50, 2: 80 });
  });

  test("replaces as a whole a fact that has two forms", () => {
    expect(merged({ repeatability: { spread: 1, of: 3 } }, { repeatability: { spread: 2 } })).toEqual({
      repeatability: { spread: 2 },
    });
    expect(merged({ attached: { intake: "a" } }, { attached: "none" })).toEqual({ attached: "none" });
  });

  test("has no other keys than the two, whatever they are called", () => {
    const key = fc.constantFrom("constructor", "toString", "hasOwnProperty", "1", "2", "A", "B");
    const map = fc.dictionary(key, fc.option(fc.nat(9), { nil: undefined }), { noNullPrototype: true });
    fc.assert(
      fc.property(map, map, (far, near) => {
        const said = Object.entries(near).filter(([, value]) => value !== undefined);
        const { ranges } = merged({ ranges: far }, { ranges: near }) as { ranges: object };
        expect(Object.entries(ranges)).toEqual(Object.entries({ ...far, ...Object.fromEntries(said) }));
      }),
    );
  });
});
