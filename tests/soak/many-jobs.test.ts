import { expect, test } from "vitest";
import { timeShelf } from "../archive/time-shelf.ts";
import { scratch } from "../cli/run.ts";

const cwd = scratch();

test("an archive of 5000 jobs is evaluated once and then read from the cache in two seconds", () => {
  const { cold, warm } = timeShelf(cwd, 5000);
  expect(cold).toBeLessThan(40);
  expect(warm).toBeLessThan(2);
});
