import { expect, test } from "vitest";
import { scratch } from "../cli/run.ts";
import { timeShelf } from "../slow/time-shelf.ts";

const cwd = scratch();

test("an archive of 5000 jobs is evaluated once and then read from the cache in two seconds", () => {
  const { cold, warm } = timeShelf(cwd, 5000);
  expect(cold).toBeLessThan(40);
  expect(warm).toBeLessThan(2);
});
