import { expect, test } from "vitest";
import { asLast, remembered } from "../../src/job/remembered.ts";
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

test("one schema reads jobs of whatever units, each with its own, sound or not", () => {
  const [inches, millimetres] = [jobSchemaFor({ length: "in" }), jobSchemaFor({ length: "mm" })];
  const job = { issued: "2026-01-02", springs: { installed_height: "40" } };
  const refused = { issued: "2026-01-02", springs: { installed_height: "40" }, nonsense: "1" };
  const height = (schema: typeof inches) => schema.safeParse(job, {}).data?.springs?.installed_height;
  expect(inches.schema).toBe(millimetres.schema);
  expect([height(inches), height(millimetres), height(inches)].map((metres) => metres?.toFixed(4))).toEqual([
    "1.0160",
    "0.0400",
    "1.0160",
  ]);
  expect(height(jobSchemaFor({}))).toBeUndefined();
  const issues = ({ safeParse }: typeof inches) => safeParse(refused, {}).error?.issues.length;
  expect([issues(inches), issues(jobSchemaFor({})), issues(millimetres)]).toEqual([1, 2, 1]);
});

test("what was asked last is not worked out again; anything else is, though it were equal", () => {
  const asked: unknown[] = [];
  const work = asLast((one: object, other: string) => asked.push([one, other]));
  const [a, b] = [{}, {}];
  expect([work(a, "x"), work(a, "x"), work(b, "x"), work(b, "y"), work(b, "y"), work(a, "x")]).toEqual([
    1, 1, 2, 3, 3, 4,
  ]);
});
