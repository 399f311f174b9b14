import fc from "fast-check";
import { describe, expect, test, vi } from "vitest";
import { render } from "../../src/diagnostics/render.ts";
import { jsonSchema } from "../../src/job/json-schema.ts";
import { readJob } from "../../src/job/read-job.ts";
import { readShop } from "../../src/job/read-shop.ts";
import { readTemplate } from "../../src/job/read-template.ts";
import { FULL_JOB, FULL_SHOP } from "./full-job.ts";

vi.setConfig({ testTimeout: 60_000 });

const KEYS = [...new Set(JSON.stringify(jsonSchema("job")).match(/(?<=")[a-z_]+(?=":)/g) ?? [])];
const key = fc.oneof(
  { weight: 8, arbitrary: fc.constantFrom(...KEYS) },
  { weight: 1, arbitrary: fc.string({ maxLength: 8 }) },
);
const scalar = fc.oneof(
  fc.string({ maxLength: 12 }),
  fc.double().map(String),
  fc.constantFrom(
    "1.5 in",
    "45 deg",
    "-3 mm",
    "2026-03-18",
    "not measured",
    "none",
    "true",
    "12 %",
    "lift intake\n0.1 20",
    "at width height\n0 1 2",
  ),
);
const tree = fc.letrec<{ node: unknown }>((tie) => ({
  node: fc.oneof(
    { depthSize: "small", withCrossShrink: true },
    scalar,
    fc.array(tie("node"), { maxLength: 3 }),
    fc.dictionary(key, tie("node"), { maxKeys: 5 }),
  ),
})).node;

/** No parser throws, and every span lies within the file: any other would show the wrong line. */
function expectSound(text: string): void {
  for (const read of [readJob("a.yaml", text), readShop("a.yaml", text), readTemplate("a.yaml", text, ["masthead"])]) {
    for (const { at } of read.diagnostics) {
      if (!at) continue;
      expect(at.start).toBeGreaterThanOrEqual(0);
      expect(at.end).toBeGreaterThanOrEqual(at.start);
      expect(at.end).toBeLessThanOrEqual(text.length);
    }
    expect(typeof render(read.diagnostics, new Map([["a.yaml", text]]))).toBe("string");
  }
}

describe("garbage is refused and never throws", () => {
  test("any text", () =>
    fc.assert(fc.property(fc.string({ unit: "binary", maxLength: 200 }), expectSound), { numRuns: 10, seed: 1 }));
  test("any tree under the keys of a job", () =>
    fc.assert(
      fc.property(fc.dictionary(key, tree, { maxKeys: 8 }), (value) => expectSound(JSON.stringify(value))),
      { numRuns: 15, seed: 2 },
    ));
  test("a sound job with a piece cut out or doubled", () =>
    fc.assert(
      fc.property(fc.nat(FULL_JOB.length), fc.nat(60), fc.boolean(), (start, length, twice) => {
        const piece = twice ? FULL_JOB.slice(start, start + length).repeat(2) : "";
        expectSound(FULL_JOB.slice(0, start) + piece + FULL_JOB.slice(start + length));
      }),
      { numRuns: 6, seed: 3 },
    ));
  test("a sound job with a value replaced", () =>
    fc.assert(
      fc.property(fc.nat(FULL_JOB.split("\n").length - 1), scalar, (line, value) => {
        const lines = FULL_JOB.split("\n");
        lines[line] = (lines[line] ?? "").replace(/: .*/, `: ${JSON.stringify(value)}`);
        expectSound(lines.join("\n"));
      }),
      { numRuns: 6, seed: 4 },
    ));
});

test("a refused job has an error", () => {
  fc.assert(
    fc.property(fc.dictionary(key, tree, { maxKeys: 8 }), (value) => {
      const { job, diagnostics } = readJob("a.yaml", JSON.stringify(value));
      expect(job !== undefined || diagnostics.some((each) => each.severity === "error")).toBe(true);
    }),
    { numRuns: 12, seed: 5 },
  );
});

test("a sound shop passes", () => expectSound(FULL_SHOP));
