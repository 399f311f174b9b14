import { expect, test } from "vitest";
import { tryMany } from "./many.ts";

// Numbers are seeds: `fuzzCase(n)` makes the same world again, as long as the schemas and demo jobs are the same. The slow tier and the soak go on from here.
test("twenty-five worlds with something harmed or odd in them are laid out or refused, and nothing else", async () => {
  const { tried, made, painted, faults } = await tryMany(0, 25, { readEach: 8, rulesEach: 20 });
  expect(faults).toEqual([]);
  expect(tried).toBe(25);
  // Most of them refused would try the refusals only.
  expect(made).toBeGreaterThan(5);
  expect(painted).toBeGreaterThan(0);
}, 60_000);
