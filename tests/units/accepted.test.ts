import { describe, expect, test } from "vitest";
import { parsePercentage, parseQuantity } from "../../src/units/parse-quantity.ts";
import { defaultDecimals, formatNumber, formatSigned, unitSymbol } from "../../src/units/show.ts";
import { acceptedUnits, findUnit, KINDS, type Kind, unitsOf } from "../../src/units/table.ts";

/**
 * What a job file may say and what a sheet then prints, written out a second time by hand: kind, unit, symbol, decimals, and
 * every other way of typing it. Symbols: NIST SP 811 (2008), chapter 6, and the trade's own; decimals: common practice, what
 * benches, calipers and burettes resolve.
 */
const ACCEPTED: readonly (readonly [Kind, string, string, number, ...string[]])[] = [
  ["length", "in", "in", 3, "inch", "inches", '"', "''"],
  ["length", "thou", "thou", 0, "mil", "thousandths"],
  ["length", "mm", "mm", 2, "millimetre", "millimetres", "millimeter", "millimeters"],
  ["length", "cm", "cm", 3, "centimetre", "centimetres", "centimeter", "centimeters"],
  ["length", "um", "µm", 1, "micrometre", "micrometres", "micron", "microns", "\u00b5m"],
  ["length", "uin", "µin", 0, "microinch", "microinches", "\u00b5in"],
  ["area", "in2", "in²", 3, "sq in", "square inch", "square inches"],
  ["area", "mm2", "mm²", 0, "sq mm"],
  ["area", "cm2", "cm²", 2, "sq cm"],
  ["volume", "cc", "cc", 1, "ccm"],
  ["volume", "cm3", "cm³", 1],
  ["volume", "ml", "mL", 1, "millilitre", "millilitres", "milliliter", "milliliters"],
  ["volume", "in3", "in³", 2, "cu in", "cubic inch", "cubic inches"],
  ["flow", "cfm", "cfm", 1, "ft3/min", "cu ft/min"],
  ["flow", "m3/h", "m³/h", 1, "m3/hr", "cbm/h"],
  ["flow", "l/s", "L/s", 1, "litres/s", "liters/s", "lps"],
  ["flow", "m3/s", "m³/s", 4],
  ["pressure", "inH2O", "inH₂O", 1, "in water", "in wc", "in wg", '"H2O', '"WC'],
  ["pressure", "cmH2O", "cmH₂O", 1],
  ["pressure", "mmH2O", "mmH₂O", 0],
  ["pressure", "kPa", "kPa", 2],
  ["pressure", "mbar", "mbar", 1, "hPa"],
  ["pressure", "Pa", "Pa", 0],
  ["pressure", "inHg", "inHg", 2, '"Hg'],
  ["pressure", "mmHg", "mmHg", 1],
  ["pressure", "psi", "psi", 2, "lbf/in2", "lb/in2"],
  ["temperature", "degF", "°F", 0, "F", "Fahrenheit"],
  ["temperature", "degC", "°C", 1, "C", "Celsius"],
  ["temperature", "K", "K", 1, "kelvin"],
  ["angle", "deg", "°", 0, "degree", "degrees"],
  ["speed", "ft/s", "ft/s", 0, "fps", "ft/sec"],
  ["speed", "m/s", "m/s", 1, "m/sec"],
  ["speed", "Mach", "Mach", 2, "Ma"],
  ["rotation", "rpm", "rpm", 0, "r/min", "1/min", "rev/min"],
  ["ratio", "%", "%", 1, "percent", "pct"],
  ["ratio", "plain", "", 3],
  ["force", "lbf", "lbf", 0, "lb", "lbs", "pounds"],
  ["force", "N", "N", 0, "newton", "newtons"],
  ["force", "kgf", "kgf", 1, "kp"],
  ["springRate", "lbf/in", "lbf/in", 0, "lb/in", "lbs/in"],
  ["springRate", "N/mm", "N/mm", 1],
  ["springRate", "kgf/mm", "kgf/mm", 2, "kp/mm"],
  ["power", "hp", "hp", 0, "bhp", "horsepower"],
  ["power", "kW", "kW", 0],
  ["power", "PS", "PS", 0],
  ["powerPerFlow", "hp/cfm", "hp/cfm", 3],
  ["powerPerFlow", "kW/(l/s)", "kW/(L/s)", 3, "kW/l/s"],
  ["mass", "g", "g", 1, "gram", "grams"],
  ["mass", "oz", "oz", 2, "ounce", "ounces"],
];

describe("every accepted unit", () => {
  for (const [kind, name, symbol, decimals, ...spellings] of ACCEPTED)
    test(`${kind} in ${name}`, () => {
      expect([unitSymbol(kind, name), defaultDecimals(kind, name)]).toEqual([symbol, decimals]);
      expect(spellings.map((typed) => [typed, findUnit(kind, typed)?.name])).toEqual(
        spellings.map((typed) => [typed, name]),
      );
    });
  test("is listed above, in the order of the messages", () => {
    expect(KINDS.flatMap((kind) => unitsOf(kind).map(({ name }) => [kind, name]))).toEqual(
      ACCEPTED.map(([kind, name]) => [kind, name]),
    );
  });
});

/** What is proposed to who left the unit out: the two that the trade uses most, imperial and metric where it uses both. */
test.each([
  ["length", "mm", "in"],
  ["area", "mm2", "in2"],
  ["volume", "cc", "cm3"],
  ["flow", "cfm", "m3/h"],
  ["pressure", "inH2O", "kPa"],
  ["temperature", "degF", "degC"],
  ["speed", "Mach", "ft/s"],
  ["force", "lbf", "N"],
  ["power", "hp", "kW"],
] as const)("%s without a unit: %s or %s", (kind, first, second) => {
  expect(parseQuantity("3", kind)).toMatchObject({ hint: `write 3 ${first} or 3 ${second}` });
});

describe("advice that can be followed", () => {
  test("a plain number is a word of ours, not a unit to type", () => {
    expect(acceptedUnits("ratio")).toBe("% or a plain number");
    expect(parseQuantity("", "ratio")).toMatchObject({ hint: "write 45 % or a plain number" });
    for (const typed of ["5 plain", "5 plan"])
      expect(parseQuantity(typed, "ratio")).toMatchObject({
        code: "units/unknown-unit",
        hint: "write 5 % or a plain number",
      });
  });
  test("a kind of one unit lists it alone", () => expect(acceptedUnits("rotation")).toBe("rpm"));
  test("a percentage is proposed as it was typed, blanks aside", () =>
    expect(parsePercentage(" 45 ")).toMatchObject({ hint: "write 45 %" }));
  test("a percentage that is refused for another reason says that one", () =>
    expect(parsePercentage("5 mm")).toMatchObject({ code: "units/wrong-kind" }));
  test("a negative share of 1 or more lacks its sign too", () => {
    expect(parsePercentage("-45").ok).toBe(false);
    expect(parsePercentage("100 %")).toMatchObject({ ok: true, value: 1 });
  });
  test("what is echoed is cut at forty letters", () => {
    const echo = (text: string) => {
      const read = parseQuantity(text, "length");
      return read.ok ? "" : read.message.split("`")[1];
    };
    expect(echo(`1 ${"x".repeat(40)}`)).toBe("x".repeat(40));
    expect(echo(`1 ${"x".repeat(41)}`)).toBe(`${"x".repeat(39)}…`);
    expect(echo("y".repeat(40))).toBe("y".repeat(40));
    expect(echo("y".repeat(41))).toBe(`${"y".repeat(39)}…`);
  });
});

describe("numbers at their limits", () => {
  test("a change below one has its sign, and none where it is nothing", () => {
    expect([0.5, -0.5, 0.01, 0].map((value) => formatSigned(value, 1))).toEqual(["+0.5", "−0.5", "0.0", "0.0"]);
  });
  test("blanks before and after do not count", () =>
    expect(parseQuantity("  34.0 mm\t", "length")).toMatchObject({ ok: true, value: 0.034 }));
  test("a fraction may be negative, and carries the whole before it", () => {
    expect(parseQuantity("-1 1/4 in", "length")).toMatchObject({ value: -1.25 * 0.0254 });
    expect(parseQuantity("-1/4 in", "length")).toMatchObject({ value: -0.25 * 0.0254 });
    expect(parseQuantity("+1/4 in", "length")).toMatchObject({ value: 0.25 * 0.0254 });
  });
  test("fifteen digits are kept, sixteen are not", () => {
    expect(parseQuantity("1.23456789012345 mm", "length")).toMatchObject({ ok: true, decimals: 14 });
    expect(parseQuantity("1.234567890123456 mm", "length")).toMatchObject({ code: "units/too-many-digits" });
  });
  test("no digit after the point is none kept", () =>
    expect(parseQuantity("34. mm", "length")).toMatchObject({ decimals: 0, resolution: 0.001 }));

  test("up to twelve decimals are printed, and only a count of them", () => {
    expect(formatNumber(0.5, 12)).toBe("0.500\u202f000\u202f000\u202f000");
    for (const decimals of [-1, 13]) expect(() => formatNumber(1, decimals)).toThrow(/decimals/);
  });
  // NIST SP 811 (2008), §10.5.3: four digits on a side may stand together, five are parted.
  test("four digits stand together, before the point and after it", () => {
    expect(formatNumber(1234, 0)).toBe("1234");
    expect(formatNumber(12345, 0)).toBe("12\u202f345");
    expect(formatNumber(0.1234, 4)).toBe("0.1234");
    expect(formatNumber(0.12345, 5)).toBe("0.123\u202f45");
  });
});
