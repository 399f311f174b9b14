import { existsSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { headsheet, scratch } from "../cli/run.ts";
import { timeShelf } from "./time-shelf.ts";

const cwd = scratch();

// tests/soak has 5,000 jobs.
describe("an archive of 1000 jobs", () => {
  test("is evaluated once, then read from the cache, and one changed job costs one job", { timeout: 300_000 }, () => {
    const { cold, warm } = timeShelf(cwd, 1000);
    // Three times what a quiet machine takes.
    expect(cold).toBeLessThan(20);
    expect(warm).toBeLessThan(2);
  });

  test("as an index to print it is a whole file", { timeout: 300_000 }, () => {
    expect(headsheet(["shelf", "--pdf", "shelf.pdf"], { cwd }).err).toContain("not in the index");
    expect(existsSync(join(cwd, "shelf.pdf"))).toBe(true);
  });
});
