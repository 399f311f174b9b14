import { expect, test } from "vitest";
import { compareVerdicts } from "../fuzz/verdicts.ts";

test("check and make give one verdict on ten thousand jobs, in the same words", async () => {
  const { made, refused, refusedSheets, differences } = await compareVerdicts(2_000_000, 2_010_000);
  process.stdout.write(`${made} sheets made, ${refusedSheets} refused, ${refused} jobs refused\n`);
  expect(differences).toEqual([]);
  expect(made).toBeGreaterThan(2_000);
});
