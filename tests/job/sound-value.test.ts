import fc from "fast-check";
import { expect, test } from "vitest";
import { z } from "zod";
import { declaredUnits } from "../../src/job/declared-units.ts";
import { jobSchemaFor } from "../../src/job/schema/schema-for.ts";
import { soundValue } from "../../src/job/sound-value.ts";
import type { Plain } from "../../src/source/located.ts";
import { readYaml } from "../../src/source/read-yaml.ts";
import { grafted, graftFor, transplanted } from "../fuzz/graft.ts";
import { SHOPS } from "../fuzz/shops.ts";
import { FULL_JOB, FULL_PRODUCT } from "./full-job.ts";

const JOBS = [FULL_JOB, FULL_PRODUCT, ...SHOPS.map(({ job, files }) => files[job] as string)];

const SHOP_UNITS = {
  length: "in",
  area: "in2",
  volume: "cc",
  flow: "cfm",
  pressure: "inH2O",
  temperature: "degF",
  speed: "ft/s",
  force: "lbf",
};

/** Reads a job's text both ways, and says whether the schema took it. Keys must stand in the same order, too. */
function bothWays(text: string): boolean {
  const { document } = readYaml("job.yaml", text);
  if (!document) return false;
  const { schema, safeParse } = jobSchemaFor(declaredUnits(document.value, SHOP_UNITS));
  const ours = safeParse(document.value, { reportInput: false });
  const zods = schema.safeParse(document.value, { reportInput: false });
  expect(ours).toStrictEqual(zods);
  expect(JSON.stringify(ours)).toBe(JSON.stringify(zods));
  return zods.success;
}

test("every job of the demo shops, and one with every key, reads as zod reads it", () => {
  for (const text of JOBS) expect(bothWays(text)).toBe(true);
});

test("jobs that somebody changed anywhere, soundly or not, read as zod reads them", () => {
  const taken = { sound: 0, refused: 0 };
  const text = fc.constantFrom(...JOBS);
  const changed = fc.oneof(
    fc
      .tuple(text, fc.array(graftFor("job", true), { minLength: 1, maxLength: 4 }))
      .map(([one, grafts]) => grafted(one, grafts)),
    fc.tuple(text, graftFor("job")).map(([one, graft]) => grafted(one, [graft])),
    fc
      .tuple(text, fc.nat(), fc.nat(), fc.constantFrom("cut" as const, "copy" as const, "swap" as const))
      .map(([one, from, to, how]) => transplanted(one, from, to, how)),
  );
  fc.assert(
    fc.property(changed, (one) => {
      taken[bothWays(one) ? "sound" : "refused"]++;
    }),
    { numRuns: 250, seed: 7 },
  );
  // Neither half may be missing, or nothing was compared.
  expect(Math.min(taken.sound, taken.refused)).toBeGreaterThan(50);
});

test("what a schema says that is not known here is left to the schema itself", () => {
  const inner = z.strictObject({
    short: z.string().max(3).optional(),
    mail: z.email().optional(),
    lists: z.array(z.string()).min(1).max(2).optional(),
    one: z.literal("one").optional(),
    otherwise: z.string().default("none"),
    within: z
      .strictObject({ a: z.string() })
      .refine(({ a }) => a !== "b")
      .optional(),
    named: z.record(z.string().regex(/^[a-z]+$/), z.string()).optional(),
  });
  const read = soundValue(inner);
  const values: readonly Plain[] = [
    { otherwise: "x" },
    {},
    { otherwise: "x", short: "abcd" },
    { otherwise: "x", mail: "nobody" },
    { otherwise: "x", mail: "a@example.org" },
    { otherwise: "x", lists: [] },
    { otherwise: "x", lists: ["a", "b"] },
    { otherwise: "x", lists: ["a", "b", "c"] },
    { otherwise: "x", one: "two" },
    { otherwise: "x", within: { a: "a" } },
    { otherwise: "x", within: { a: "b" } },
    { otherwise: "x", named: { a: "1" } },
    { otherwise: "x", named: { A: "1" } },
    { otherwise: "x", unknown: "1" },
    "text",
    ["list"],
  ];
  for (const value of values) {
    const zods = inner.safeParse(value);
    if (!zods.success) expect(read(value)).toBeUndefined();
    else if ("otherwise" in (value as object)) expect(read(value)).toStrictEqual(zods.data);
  }
  expect(read({})).toBeUndefined();
});
