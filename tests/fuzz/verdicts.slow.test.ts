import { expect, test } from "vitest";
import { compareVerdicts } from "./verdicts.ts";

test("check and make give one verdict on a hundred jobs, in the same words", async () => {
  const { made, refused, refusedSheets, differences } = await compareVerdicts(20_000, 20_100);
  process.stdout.write(`${made} sheets made, ${refusedSheets} refused, ${refused} jobs refused\n`);
  expect(differences).toEqual([]);
  expect(made).toBeGreaterThan(20);
}, 600_000);
