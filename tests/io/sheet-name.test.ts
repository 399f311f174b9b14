import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { formatFileName } from "../../src/pipeline/file-name.ts";

const parts = { number: "2026-014", revision: 1, template: "handover", head: "Wedge four", issued: "2026-03-18" };
const named = (number: string) => formatFileName({ ...parts, number });

test("a plain ticket number stands in the name as it is", () => {
  expect(formatFileName(parts)).toBe("2026-014_rev1_handover_wedge-four_2026-03-18.pdf");
  expect(named("F-231")).toBe("f-231_rev1_handover_wedge-four_2026-03-18.pdf");
});

test.each([
  ["A/1", "A-1"],
  ["A 1", "A-1"],
  ["a_1", "a-1"],
  ["../../etc/passwd", "etc-passwd"],
  ["é1", "e1"],
  ["x".repeat(48), "x".repeat(300)],
  [`${"x".repeat(60)}1`, `${"x".repeat(60)}2`],
  ["", "x"],
  ["\u202e12", "12"],
  ["\u0001", "\u0002"],
])("%j and %j are two jobs, and two names", (one, other) => expect(named(one)).not.toBe(named(other)));

test("templates that share a slug do not share a name", () =>
  expect(formatFileName({ ...parts, template: "my sheet" })).not.toBe(
    formatFileName({ ...parts, template: "my-sheet" }),
  ));

/** What the parts of a name may hold: anything at all. */
const text = fc.oneof(
  fc.string({ unit: "grapheme", maxLength: 400 }),
  fc.constantFrom(
    "CON",
    "nul",
    "aux.pdf",
    "com1",
    "..",
    "~",
    "-rf",
    "\u202egpj",
    "a\u0000b",
    "$(x)",
    "`x`",
    "Å.\u200b",
  ),
);

describe("whatever is typed", () => {
  test("a name is plain ASCII, one part of a path, shorter than any disk's limit, and reserved nowhere", () => {
    fc.assert(
      fc.property(text, text, text, text, (number, revision, template, head) => {
        const name = formatFileName({ number, revision, template, head, issued: "2026-03-18" });
        expect(name).toMatch(/^[a-z0-9][a-z0-9-]*_rev[a-z0-9-]+_[a-z0-9-]+_[a-z0-9-]+_2026-03-18\.pdf$/);
        // NTFS, ext4 and APFS take 255; a page's number may come on top.
        expect(name.length).toBeLessThan(240);
        // Device names of Windows, with or without an ending (Microsoft, "Naming Files, Paths, and Namespaces").
        expect(name.split(".")[0]).not.toMatch(/^(con|prn|aux|nul|com\d|lpt\d)$/i);
      }),
      { seed: 5, numRuns: 400 },
    );
  });
  test("two numbers share a name only if they differ in nothing but case, or blanks round them", () => {
    const same = (value: string) => value.trim().normalize("NFC").toLowerCase();
    fc.assert(
      fc.property(text, text, (one, other) => {
        expect(named(one) === named(other)).toBe(same(one) === same(other));
      }),
      { seed: 6, numRuns: 400 },
    );
  });
});
