import { expect, test } from "vitest";
import { fittingFaults } from "../whole/fitting-sheets.ts";

test("set-up and side-by-side sheets of four hundred generated desks, two hundred each", async () => {
  const { faults, pages } = await fittingFaults(400, 2);
  process.stdout.write(`${pages.sheets} sheets, ${pages.count} pages\n`);
  expect(faults).toEqual([]);
});
