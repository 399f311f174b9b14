import { expect, test } from "vitest";
import { tryMany } from "./many.ts";

// Numbers are seeds: `fuzzCase(n)` makes the same world again, as long as the schemas and demo jobs are the same. The slow tier and the soak go on from here.
test("eighty worlds with something harmed or odd in them are laid out or refused, and nothing else", async () => {
  const { tried, made, painted, faults } = await tryMany(0, 80, { readEach: 8, rulesEach: 32 });
  expect(faults).toEqual([]);
  expect(tried).toBe(80);
  // Most of them refused would try the refusals only.
  expect(made).toBeGreaterThan(10);
  expect(painted).toBeGreaterThan(0);
}, 60_000);
