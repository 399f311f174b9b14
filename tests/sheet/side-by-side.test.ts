import { expect, test } from "vitest";
import { ribbonFaults } from "./ribbon-pairs.ts";

// A thousand of them in the slow tier.
test("ribbon and sentence say of every lift what its verdict says, on a hundred pairs", () => {
  const { faults, seen } = ribbonFaults(100, 1);
  expect(faults).toEqual([]);
  for (const count of Object.values(seen)) expect(count).toBeGreaterThan(50);
});
