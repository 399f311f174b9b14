import { expect, test } from "vitest";
import { compareVerdicts } from "./verdicts.ts";

test("check and make give one verdict on a thousand jobs, in the same words", async () => {
  const { made, refused, refusedSheets, differences } = await compareVerdicts(20_000, 21_000);
  process.stdout.write(`${made} sheets made, ${refusedSheets} refused, ${refused} jobs refused\n`);
  expect(differences).toEqual([]);
  expect(made).toBeGreaterThan(200);
  expect(refusedSheets).toBeGreaterThan(0);
}, 600_000);
