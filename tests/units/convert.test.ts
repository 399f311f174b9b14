import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { differenceFromSi, fromSi, toSi } from "../../src/units/convert.ts";
import { findUnit, KINDS, type Kind, kindsWith, namedUnit, nearestUnit, unitsOf } from "../../src/units/table.ts";
import reference from "../references/units.json" with { type: "json" };

/** The reference's names for units, as ours. What is not listed here is no unit of a job file. */
const OURS: Readonly<Record<string, readonly [Kind, string]>> = {
  "inH2O (conventional)": ["pressure", "inH2O"],
  "inHg (conventional)": ["pressure", "inHg"],
  in: ["length", "in"],
  "ft3/min": ["flow", "cfm"],
  in3: ["volume", "in3"],
  "lbf/in2 (psi)": ["pressure", "psi"],
  "ft/s": ["speed", "ft/s"],
  "hp (550 ft lbf/s)": ["power", "hp"],
  degF: ["temperature", "degF"],
  degC: ["temperature", "degC"],
  Pa: ["pressure", "Pa"],
  kPa: ["pressure", "kPa"],
  "m3/s": ["flow", "m3/s"],
  "L/s": ["flow", "l/s"],
  mm: ["length", "mm"],
  cm3: ["volume", "cm3"],
  kW: ["power", "kW"],
  K: ["temperature", "K"],
  "m/s": ["speed", "m/s"],
};
/** Units of the reference that are SI itself where the table has a multiple of it only. */
const SI = new Set(["m", "m3", "W"]);
const NOT_OURS = new Set(["inH2O (39.2 degF, 4 degC)", "lbf ft (torque)", "atm"]);

const rows = reference.rows.filter((row) => !NOT_OURS.has(row.unit));

/** NIST SP 811 (2008), Appendix B.8: rounded to the digits printed, so half a unit of the last. */
describe("factors against NIST SP 811, Appendix B.8", () => {
  for (const row of rows) {
    if (row.kind !== "factor") continue;
    test(`1 ${row.unit} is ${row.printed} ${row.to}`, () => {
      const [kind, unit] = OURS[row.unit]!;
      const target = SI.has(row.to) ? undefined : OURS[row.to]!;
      const si = toSi(1, kind, unit);
      const value = target ? fromSi(si, ...target) : si;
      const [digits, exponent] = row.printed!.replace(/(\d) (\d)/g, "$1$2").split(/\s*E/) as [string, string];
      const half = row.printed_is_exact ? 1e-15 : 0.5 * 10 ** (Number(exponent) - (digits.split(".")[1]?.length ?? 0));
      expect(Math.abs(value - row.printed_value!)).toBeLessThanOrEqual(half * (1 + 1e-9));
      if (row.exact_value) expect(Math.abs(value / row.exact_value - 1)).toBeLessThan(1e-13);
    });
  }
});

/** Worked values of the same reference, computed from the definitions: relative 1e-9 (its last digits are rounded). */
describe("worked values, both directions", () => {
  for (const row of rows) {
    if (row.kind !== "worked") continue;
    test(`${row.value} ${row.unit} is ${row.expected} ${row.to}`, () => {
      const from = OURS[row.unit]!;
      const to = OURS[row.to]!;
      expect(fromSi(toSi(row.value!, ...from), ...to) / row.expected!).toBeCloseTo(1, 9);
      expect(fromSi(toSi(row.expected!, ...to), ...from) / row.value!).toBeCloseTo(1, 9);
    });
  }
});

test("every row of the reference is used, or named as no unit of ours", () => {
  expect(reference.rows.filter((row) => !NOT_OURS.has(row.unit) && !OURS[row.unit]).map((row) => row.unit)).toEqual([]);
  expect(rows.length).toBeGreaterThan(15);
});

// NIST SP 811 (2008), Appendix B.8: kgf 9.806 65 N exactly, lbf 4.448 222 N, metric horsepower 7.354 988 E+02 W,
// oz (avoirdupois) 2.834 952 E-02 kg, mmHg (conventional) 1.333 224 E+02 Pa, degree 1.745 329 E-02 rad. From memory.
test.each([
  ["force", "kgf", 9.80665, 0],
  ["force", "lbf", 4.448222, 5e-7],
  ["power", "PS", 735.4988, 5e-5],
  ["mass", "oz", 0.02834952, 5e-9],
  ["pressure", "mmHg", 133.3224, 5e-5],
  ["pressure", "cmH2O", 98.0665, 5e-5],
  ["angle", "deg", 0.01745329, 5e-9],
] as const)("1 %s in %s", (kind, unit, printed, half) => {
  expect(Math.abs(toSi(1, kind, unit) - printed)).toBeLessThanOrEqual(half + 1e-12);
});

// Hand calculation: 745.6999 W ÷ 4.719474e-4 m³/s = 1.580049e6 W/(m³/s); a kW per litre a second is 1e6.
test("power per flow", () => {
  expect(toSi(1, "powerPerFlow", "hp/cfm")).toBeCloseTo(1.580049e6, -1);
  expect(toSi(1, "powerPerFlow", "kW/(l/s)")).toBe(1e6);
});

const anyUnit = fc
  .constantFrom(...KINDS)
  .chain((kind) => fc.constantFrom(...unitsOf(kind)).map((unit) => [kind, unit.name] as const));
const anyNumber = fc.double({ min: -1e6, max: 1e6, noNaN: true });

test("law: there and back is the same number", () =>
  fc.assert(
    fc.property(anyUnit, anyNumber, ([kind, unit], value) => {
      expect(Math.abs(fromSi(toSi(value, kind, unit), kind, unit) - value)).toBeLessThanOrEqual(
        1e-9 + 1e-12 * Math.abs(value),
      );
    }),
    { seed: 1 },
  ));

test("law: a difference is the difference of the two", () =>
  fc.assert(
    fc.property(
      anyUnit,
      fc.integer({ min: -999, max: 999 }),
      fc.integer({ min: -999, max: 999 }),
      ([kind, unit], a, b) => {
        expect(differenceFromSi(toSi(a, kind, unit) - toSi(b, kind, unit), kind, unit)).toBeCloseTo(a - b, 6);
      },
    ),
    { seed: 1 },
  ));

describe("names", () => {
  test.each([
    ["area", "in²", "in2"],
    ["area", " IN 2 ", "in2"],
    ["area", "in^2", "in2"],
    ["length", '"', "in"],
    ["length", "″", "in"],
    ["length", "in.", "in"],
    ["length", "Inches", "in"],
    ["flow", "m³/h", "m3/h"],
    ["flow", "CFM", "cfm"],
    ["flow", "L/s", "l/s"],
    ["pressure", "inH₂O", "inH2O"],
    ["pressure", "in H2O", "inH2O"],
    ["pressure", '"H2O', "inH2O"],
    ["pressure", "KPA", "kPa"],
    ["temperature", "°F", "degF"],
    ["temperature", "℃", "degC"],
    ["temperature", "deg C", "degC"],
    ["angle", "°", "deg"],
    ["speed", "mach", "Mach"],
    ["powerPerFlow", "kW/(L/s)", "kW/(l/s)"],
    ["force", "lb", "lbf"],
  ] as const)("%s: %s is %s", (kind, typed, name) => expect(findUnit(kind, typed)?.name).toBe(name));

  test("every name, symbol and alias finds its own unit and no other of its kind", () => {
    for (const kind of KINDS) {
      for (const unit of unitsOf(kind)) {
        for (const form of [unit.name, unit.symbol, ...unit.aliases].filter((one) => one !== "")) {
          expect([kind, form, findUnit(kind, form)?.name]).toEqual([kind, form, unit.name]);
        }
      }
    }
  });

  test("a unit of another kind is known as such, a near one is proposed, a missing one is our own fault", () => {
    expect(kindsWith("kPa")).toEqual(["pressure"]);
    expect(nearestUnit("pressure", "inH20")).toBe("inH2O");
    expect(nearestUnit("length", "kg")).toBeUndefined();
    expect(() => namedUnit("length", "furlong")).toThrow(RangeError);
  });
});

// The SI Brochure: coherent units are one in SI, whatever they are one of.
test.each([
  ["pressure", "Pa"],
  ["temperature", "K"],
  ["flow", "m3/s"],
  ["speed", "m/s"],
  ["rotation", "rpm"],
  ["force", "N"],
  ["ratio", "plain"],
] as const)("one %s in %s is one", (kind, unit) => {
  expect([toSi(1, kind, unit), fromSi(1, kind, unit)]).toEqual([1, 1]);
});

test("a unit by a name that people use is the unit, and by one that nobody uses a bug", () => {
  expect([namedUnit("length", "inches").name, namedUnit("temperature", "°C").name]).toEqual(["in", "degC"]);
  expect(() => namedUnit("length", "furlong")).toThrow(/a length has no unit "furlong"/);
  for (const [typed, name] of [
    ["°C", "degC"],
    ["° F", "degF"],
    ["°c", "degC"],
    ["deg C", "degC"],
  ] as const)
    expect(findUnit("temperature", typed)?.name).toBe(name);
});
