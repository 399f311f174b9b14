import { expect, test } from "vitest";
import { scratch } from "../cli/run.ts";
import { changeNumbers } from "../commands/issued/each-number.ts";

const folder = scratch();

test("no typed number of three issued jobs can be changed in silence: all, in turn", async () => {
  const { numbers, refused, silent } = await changeNumbers(folder, 1);
  process.stdout.write(`${numbers} numbers changed, ${refused} refused\n`);
  expect(silent).toEqual([]);
  expect(refused).toBeGreaterThan(numbers / 2);
});
