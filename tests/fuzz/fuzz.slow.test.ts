import { expect, test } from "vitest";
import { tryMany } from "./many.ts";

test("two thousand worlds: made or refused, sound in two readers, and by every rule of the file", async () => {
  const { tried, made, sheets, slowest, faults } = await tryMany(1_000, 3_000, { rulesEach: 4 });
  process.stdout.write(`${tried} worlds: ${made} made, ${sheets} sheets, the slowest took ${Math.round(slowest)} ms\n`);
  expect(faults).toEqual([]);
  expect(tried).toBe(2_000);
  // Most of them refused would try the refusals only.
  expect(made).toBeGreaterThan(500);
}, 1_200_000);
