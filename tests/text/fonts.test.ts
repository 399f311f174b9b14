import fc from "fast-check";
import PDFDocument from "pdfkit";
import { expect, test } from "vitest";
import { openFonts } from "../../src/pdf/font/fonts.ts";
import type { Weight } from "../../src/text/measure.ts";

const fonts = openFonts();
const weights: readonly Weight[] = ["regular", "medium", "semibold"];
const doc = new PDFDocument({ autoFirstPage: false });
for (const weight of weights) doc.registerFont(weight, fonts.paths[weight]);

/** pdfkit's own width, as it advances when it paints. */
const painted = (text: string, weight: Weight, size: number) => doc.font(weight).fontSize(size).widthOfString(text);

test("a letter stays itself after it was a part of another", () => {
  const { regular } = openFonts().faces;
  regular.shape("\u00d6");
  expect(regular.shape("O").letters).toEqual([[79]]);
});

test.each([
  "As received",
  "Flow at 28 inH₂O (cfm)",
  "+4.7 % ± 0.6 %",
  "AVATAR To. Ty, Wa",
  "office fitting",
  "Lift ÷ diameter",
  "Ж Ω é ½ − ×",
  " ",
  "a  b\tc ",
  "",
])("%j is as wide as pdfkit paints it", (text) => {
  for (const weight of weights)
    expect(fonts.measure.width(text, weight, 8.5)).toBeCloseTo(painted(text, weight, 8.5), 9);
});

test("any text is as wide as pdfkit paints it", () =>
  fc.assert(
    fc.property(
      fc.string({ maxLength: 40 }),
      fc.constantFrom(...weights),
      fc.constantFrom(8.5, 9, 10.5, 24),
      (text, weight, size) => {
        expect(fonts.measure.width(text, weight, size)).toBeCloseTo(painted(text, weight, size), 8);
      },
    ),
  ));

test("kerning counts: a pair is not the sum of its letters", () => {
  const { width } = fonts.measure;
  expect(width("To", "regular", 10)).toBeLessThan(width("T", "regular", 10) + width("o", "regular", 10) - 0.1);
});

test("digits are tabular in every weight", () => {
  for (const weight of weights)
    expect(new Set([..."0123456789"].map((digit) => fonts.measure.width(digit, weight, 10))).size).toBe(1);
});

test("letters that cannot be drawn are named once each, in order", () => {
  expect(fonts.measure.missing("Lift ÷ diameter ≥ 0.25, ½ × 45° ± 0.5 ²³ − Δ … “é” Ж Ω ₂")).toEqual([]);
  expect(fonts.measure.missing("⌀34 漢 ⌀ 😀")).toEqual(["⌀", "漢", "😀"]);
});

// IBM Plex Sans' own tables (OS/2 and hhea), read apart from this program: 698, 516, 1025 and −275 of 1000 units an em.
test("heights are those of the font", () =>
  expect(fonts.measure).toMatchObject({ capHeight: 0.698, xHeight: 0.516, ascent: 1.025, descent: 0.275 }));
