import { expect, test } from "vitest";
import { jobSchema } from "../../src/job/schema/job.ts";
import type { DeclaredUnits } from "../../src/job/schema/quantities.ts";
import { parseOptions } from "../../src/job/validate/schema-errors.ts";

test("one schema parses jobs in whatever units, each in its own, valid or not", () => {
  const job = { issued: "2026-01-02", springs: { installed_height: "40" } };
  const parse = (value: object, units: DeclaredUnits) => jobSchema().safeParse(value, parseOptions(units));
  const height = (units: DeclaredUnits) => parse(job, units).data?.springs?.installed_height?.toFixed(4);
  expect([{ length: "in" }, { length: "mm" }, {}, { length: "in" }].map(height)).toEqual([
    "1.0160",
    "0.0400",
    undefined,
    "1.0160",
  ]);
  const issues = (units: DeclaredUnits) => parse({ ...job, nonsense: "1" }, units).error?.issues.length;
  expect([{ length: "in" }, {}, { length: "mm" }].map(issues)).toEqual([1, 2, 1]);
});
