import { expect, test } from "vitest";
import { tryMany } from "./many.ts";

// Numbers are seeds: `fuzzCase(n)` makes the same world again, as long as the schemas and demo jobs are the same. The slow tier and the soak go on from here.
test("worlds with something harmed or odd in them are made or refused, and nothing else", async () => {
  const { tried, faults } = await tryMany(0, 6, { rulesEach: 6 });
  expect(faults).toEqual([]);
  expect(tried).toBe(6);
});
