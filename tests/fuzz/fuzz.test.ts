import { expect, test } from "vitest";
import { tryMany } from "./many.ts";

// Numbers are seeds: `fuzzCase(n)` makes the same world again. The slow tier and the soak go on from here.
test("worlds with something harmed or odd in them are made or refused, and nothing else", async () => {
  const { tried, faults } = await tryMany(0, 12, { rulesEach: 12 });
  expect(faults).toEqual([]);
  expect(tried).toBe(12);
});
