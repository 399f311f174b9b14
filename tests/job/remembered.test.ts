import { expect, test } from "vitest";
import { remembered } from "../../src/job/remembered.ts";
import { jobSchemaFor } from "../../src/job/schema/schema-for.ts";

test("what was read lately is not read again, and only the oldest of too many is forgotten", () => {
  const read: string[] = [];
  const reading = remembered((one: string, other: string) => read.push(`${one} ${other}`), 3);
  for (const text of ["a", "b", "c", "a", "b", "c"]) reading(text, "");
  expect(read).toEqual(["a ", "b ", "c "]);
  reading("d", "");
  expect(["b", "c", "d"].map((text) => reading(text, ""))).toEqual([2, 3, 4]);
  expect(reading("a", "")).toBe(5);
});

test("schemas are kept for a shop's few combinations of units, however they are ordered, and not for all there are", () => {
  const first = jobSchemaFor({ length: "mm", flow: "cfm" });
  expect(jobSchemaFor({ flow: "cfm", length: "mm" })).toBe(first);
  expect(jobSchemaFor({ length: "in", flow: "cfm" })).not.toBe(first);
  for (const length of ["mm", "cm", "in", "thou"]) for (const volume of ["cc", "ml"]) jobSchemaFor({ length, volume });
  expect(jobSchemaFor({ length: "mm", flow: "cfm" })).not.toBe(first);
});
