import { expect, test } from "vitest";
import { tryMany } from "./many.ts";

// Numbers are seeds: `fuzzCase(n)` makes the same world again, as long as the schemas and demo jobs are the same. The slow tier and the soak go on from here.
test("two hundred worlds with something harmed or odd in them are laid out or refused, and nothing else", async () => {
  const { tried, made, painted, faults } = await tryMany(0, 200, { readEach: 20, rulesEach: 100 });
  expect(faults).toEqual([]);
  expect(tried).toBe(200);
  // Most of them refused would try the refusals only.
  expect(made).toBeGreaterThan(50);
  expect(painted).toBeGreaterThan(0);
}, 60_000);
