import fc from "fast-check";

/** Numbers that break formulas which trust them. */
export const HOSTILE_NUMBERS = [
  "0",
  "-0",
  "0.0",
  "-1",
  "1e308",
  "1e-308",
  "1e-9",
  "999999999999",
  "0.0000001",
  "1/0 in",
  "0/1 in",
  "11/32 in",
  "1e999",
  "NaN",
  "Infinity",
  "0x10",
  "1_000",
  "1,5",
  "٣",
  "½",
  "100 %",
  "0.001 mm",
  "5000 mm",
  "-40 degC",
  "0 K",
  "90 deg",
  "360 deg",
  "1 Pa",
  "0.01 cfm",
  "100000 cfm",
];

/** Words that people type, and some that they do not. */
export const texts = fc.oneof(
  fc.string({ maxLength: 40 }),
  fc.string({ unit: "grapheme", maxLength: 20 }),
  fc.constantFrom(
    "",
    " ",
    "not measured",
    "none",
    "true",
    "null",
    "~",
    "2026-02-30",
    "constructor",
    "__proto__",
    "Zylinderköpfe für Ölmühlen",
    "Головка блока",
    "a".repeat(300),
    "word ".repeat(400),
    "line\nline\n\nline",
    "לשון",
    "🔧",
    "<b>&amp;</b>",
    "{{7*7}}",
    "=1+1",
    "datum.lift",
    "\\u0000",
    "(paren",
    "100%",
  ),
);

/** Columns and marks of a readings table. */
export const flowTables = fc
  .record({
    top: fc.double({ min: 1, max: 400, noNaN: true }),
    lifts: fc.uniqueArray(fc.integer({ min: 1, max: 90 }), { minLength: 1, maxLength: 14 }),
    marks: fc.array(fc.constantFrom("", "", "", "", "", "", "?", "!", "~", "-"), { minLength: 28, maxLength: 28 }),
    bend: fc.double({ min: 0.2, max: 3, noNaN: true }),
    falls: fc.boolean(),
    head: fc.constantFrom(
      "lift intake exhaust",
      "lift/mm intake exhaust/cfm",
      "lift exhaust",
      "lift intake",
      "lift intake exhaust pressure",
    ),
  })
  .map(({ top, lifts, marks, bend, falls, head }) => {
    const columns = head.split(" ").length - 1;
    const rising = lifts.toSorted((a, b) => a - b);
    const swept = falls ? [...rising, ...rising.slice(0, -1).toReversed()] : rising;
    const rows = swept.map((lift, i) => {
      const flow = (k: number) => (top * (1 - Math.exp((-bend * lift) / 20)) * (1 - k / 4)).toFixed(1);
      const cells = Array.from({ length: columns }, (_, k) => {
        if (head.endsWith("pressure") && k === columns - 1) return "25";
        const mark = marks[(i * 2 + k) % marks.length];
        return mark === "-" ? "-" : mark === "~" ? `~${flow(k)}` : `${flow(k)}${mark}`;
      });
      return [(lift / 100).toFixed(3), ...cells].join("  ");
    });
    return `${[head, ...rows].join("\n")}\n`;
  });
