import { expect, test } from "vitest";
import { ribbonFaults } from "./ribbon-pairs.ts";

test("ribbon and sentence say of every lift what its verdict says, on a thousand pairs", () => {
  const { faults, seen } = ribbonFaults(1000, 2);
  process.stdout.write(`lifts: ${JSON.stringify(seen)}\n`);
  expect(faults).toEqual([]);
});
