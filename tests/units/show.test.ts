import { createRequire } from "node:module";
import fc from "fast-check";
import * as fontkit from "fontkit";
import { describe, expect, test } from "vitest";
import { parseQuantity } from "../../src/units/parse-quantity.ts";
import {
  defaultDecimals,
  formatNumber,
  formatSigned,
  show,
  showChange,
  showNumber,
  unitSymbol,
  withUnit,
} from "../../src/units/show.ts";
import { KINDS, unitsOf } from "../../src/units/table.ts";
import typography from "../references/si-typography.json" with { type: "json" };

const rule = (section: string, start: string) =>
  typography.rows.find((row) => row.section === section && row.rule.startsWith(start))!;
/** The reference writes any space as a plain one. */
const plainSpaces = (text: string) => text.replace(/[\u00a0\u202f]/g, " ");

describe("against NIST SP 811 (2008), chapters 7 and 10", () => {
  test("§7.2: a space before the unit, also °C and %", () => {
    const shown = [show(293.15, "temperature", "degC", 0), show(0.28, "ratio", "%", 0)];
    expect(plainSpaces(shown.join("; "))).toBe(rule("7.2", "space between").good);
    expect(shown[0]).toBe("20\u00a0°C");
  });
  test("§7.2: none before a plane angle's degree", () =>
    expect(show(Math.PI / 4, "angle", "deg")).toBe(rule("7.2", "no space").good));
  test("§10.5.2: a zero before the point", () => expect(formatNumber(0.62, 2)).toBe(rule("10.5.2", "zero").good));
  test("§10.5.3: digits in threes by a thin space", () => {
    expect(plainSpaces(formatNumber(15739.012, 3))).toBe(rule("10.5.3", "group").good);
    expect(formatNumber(9999, 0)).toBe("9999");
    expect(formatNumber(1234567, 0)).toBe("1\u202f234\u202f567");
    expect(formatNumber(0.34375, 5)).toBe("0.343\u202f75");
  });
});

test("true minus, plus on changes, and no sign on what rounds to zero", () => {
  expect(formatNumber(-2.44, 1)).toBe("−2.4");
  expect(formatNumber(-0.04, 1)).toBe("0.0");
  expect(formatSigned(2.44, 1)).toBe("+2.4");
  expect(formatSigned(-2.44, 1)).toBe("−2.4");
  expect(formatSigned(0.04, 1)).toBe("0.0");
  expect(showChange(10, "temperature", "degF")).toBe("+18\u00a0°F");
});

test("a half is rounded away from zero, whatever binary fractions make of it", () => {
  expect(formatNumber(1.005, 2)).toBe("1.01");
  expect(formatNumber((0.345 * 0.0254) / 0.0254, 2)).toBe("0.35");
  expect(formatNumber(-2.5, 0)).toBe("−3");
  expect(formatNumber(1e-9, 2)).toBe("0.00");
});

test("law: what was typed with so many digits is rounded as by hand, half away from zero", () =>
  fc.assert(
    fc.property(
      fc.oneof(
        fc.integer({ min: 0, max: 2e9 }),
        fc.integer({ min: 0, max: 4e8 }).map((n) => 5 * n),
      ),
      fc.integer({ min: 0, max: 6 }),
      fc.integer({ min: 0, max: 6 }),
      (count, typed, decimals) => {
        const power = 10n ** BigInt(Math.max(0, typed - decimals));
        const kept = (2n * BigInt(count) * 10n ** BigInt(Math.max(0, decimals - typed)) + power) / (2n * power);
        const digits = String(kept).padStart(decimals + 1, "0");
        const whole = digits.slice(0, digits.length - decimals);
        const byHand = decimals === 0 ? whole : `${whole}.${digits.slice(-decimals)}`;
        const shown = formatNumber(Number(`${count}e-${typed}`), decimals);
        expect(shown.replaceAll("\u202f", "")).toBe(byHand);
      },
    ),
    { numRuns: 2000 },
  ));

test.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 1e15, -1e15])(
  "%s never reaches paper",
  (value) => {
    expect(() => formatNumber(value, 1)).toThrow(RangeError);
  },
);
test("decimals that are not a count", () => expect(() => formatNumber(1, 1.5)).toThrow(RangeError));

test.each([
  ["length", "in", 3],
  ["length", "mm", 2],
  ["flow", "cfm", 1],
  ["flow", "l/s", 1],
  ["pressure", "inH2O", 1],
  ["volume", "cc", 1],
  ["area", "mm2", 0],
  ["speed", "Mach", 2],
  ["speed", "ft/s", 0],
] as const)("decimals of %s in %s: %s", (kind, unit, decimals) => expect(defaultDecimals(kind, unit)).toBe(decimals));

test("symbols and table cells", () => {
  expect(unitSymbol("pressure", "inH2O")).toBe("inH₂O");
  expect(show(0.00065, "area", "mm2")).toBe("650\u00a0mm²");
  expect(showNumber(0.0439928, "length", "mm")).toBe("43.99");
  expect(withUnit("0.87", "ratio", "plain")).toBe("0.87");
});

/** pdfkit draws nothing for a missing glyph and says nothing. */
test("every symbol, and every mark set here, has a glyph in the document's font", () => {
  const require = createRequire(import.meta.url);
  const marks = formatSigned(-12345.6, 1) + formatSigned(1, 1) + show(1, "length", "mm");
  const symbols = KINDS.flatMap((kind) => unitsOf(kind).map((unit) => unit.symbol)).join("");
  for (const weight of ["400Regular/IBMPlexSans_400Regular", "600SemiBold/IBMPlexSans_600SemiBold"]) {
    const font = fontkit.openSync(require.resolve(`@expo-google-fonts/ibm-plex-sans/${weight}.ttf`));
    if (!("hasGlyphForCodePoint" in font)) throw new Error("not a single font");
    const missing = [...new Set(marks + symbols)].filter((one) => !font.hasGlyphForCodePoint(one.codePointAt(0)!));
    expect(missing).toEqual([]);
  }
});

test("law: what is shown can be typed, and is the same to the digits shown", () =>
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 0.2, noNaN: true }),
      fc.constantFrom("in", "mm", "cm", "thou"),
      (metres, unit) => {
        const text = show(metres, "length", unit);
        const read = parseQuantity(text.replaceAll("\u202f", ""), "length");
        if (!read.ok) throw new Error(`${text}: ${read.code}`);
        expect(Math.abs(read.value - metres)).toBeLessThanOrEqual(read.resolution / 2 + 1e-12);
      },
    ),
    { seed: 1 },
  ));

test("law: never an exponent, never a NaN, whatever the number", () =>
  fc.assert(
    fc.property(
      fc.double({ min: -9e14, max: 9e14, noNaN: true }),
      fc.integer({ min: 0, max: 6 }),
      (value, decimals) => {
        expect(formatSigned(value, decimals)).toMatch(/^[+−]?\d{1,3}(\u202f?\d{3}|\d)*(\.\d+(\u202f\d+)*)?$/);
      },
    ),
    { seed: 1 },
  ));

// NIST SP 811 (2008), 10.5.3: groups of three, but four digits on one side of the point stand together.
test.each([
  [12345.1234, 4, "12\u202f345.1234"],
  [1234.12345, 5, "1234.123\u202f45"],
  [12345.12345, 5, "12\u202f345.123\u202f45"],
  [1234.1234, 4, "1234.1234"],
  [12345, 0, "12\u202f345"],
  [1234, 0, "1234"],
] as const)("%f to %i digits", (value, decimals, text) => expect(formatNumber(value, decimals)).toBe(text));
