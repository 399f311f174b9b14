import { expect, test } from "vitest";
import type { DeclaredUnits } from "../../src/job/schema/quantities.ts";
import { parseJob } from "../../src/job/validate/parse-job.ts";

test("one schema parses jobs of whatever units, each with its own, sound or not", () => {
  const job = { issued: "2026-01-02", springs: { installed_height: "40" } };
  const height = (units: DeclaredUnits) => parseJob(job, units).data?.springs?.installed_height?.toFixed(4);
  expect([{ length: "in" }, { length: "mm" }, {}, { length: "in" }].map(height)).toEqual([
    "1.0160",
    "0.0400",
    undefined,
    "1.0160",
  ]);
  const issues = (units: DeclaredUnits) => parseJob({ ...job, nonsense: "1" }, units).error?.issues.length;
  expect([{ length: "in" }, {}, { length: "mm" }].map(issues)).toEqual([1, 2, 1]);
});
