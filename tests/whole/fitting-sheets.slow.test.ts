import { expect, test } from "vitest";
import { fittingFaults } from "./fitting-sheets.ts";

// tests/soak has four hundred.
test("set-up and side-by-side sheets of fifty generated desks keep every rule, are read back, and judge nobody's head", async () => {
  const { faults, pages } = await fittingFaults(50, 1);
  process.stdout.write(`${pages.sheets} sheets, ${pages.count} pages\n`);
  expect(faults).toEqual([]);
  expect(pages.sheets).toBe(50);
}, 300_000);
