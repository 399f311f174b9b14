import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parseLeadingNumber } from "../../src/units/parse-number.ts";
import { parsePercentage, parseQuantity } from "../../src/units/parse-quantity.ts";
import { KINDS, type Kind, unitsOf } from "../../src/units/table.ts";

function understood<K extends Kind>(text: string, kind: K, bareUnit?: string) {
  const read = parseQuantity(text, kind, bareUnit);
  if (!read.ok) throw new Error(`${text}: ${read.code}`);
  return read;
}

describe("what is understood", () => {
  test.each([
    ["34.0 mm", "length", 0.034],
    ["34mm", "length", 0.034],
    ["1.654 in", "length", 1.654 * 0.0254],
    ['1.280"', "length", 1.28 * 0.0254],
    ["1.280″", "length", 1.28 * 0.0254],
    ["11/32 in", "length", (11 / 32) * 0.0254],
    ["1 1/4 in", "length", 1.25 * 0.0254],
    ['1-1/4"', "length", 1.25 * 0.0254],
    [".062 in", "length", 0.062 * 0.0254],
    ["34\u00a0mm", "length", 0.034],
    ["34\u202fmm", "length", 0.034],
    ["45°", "angle", Math.PI / 4],
    ["45 deg", "angle", Math.PI / 4],
    ["28 inH2O", "pressure", 6974.48948],
    ["-5 degC", "temperature", 268.15],
    ["62 cc", "volume", 62e-6],
    ["0.5 %", "ratio", 0.005],
    ["1.5", "ratio", 1.5],
    ["240 m3/h", "flow", 240 / 3600],
    ["+3 mm", "length", 0.003],
  ] as const)("%s", (text, kind, si) => expect((understood(text, kind).value as number) / si).toBeCloseTo(1, 12));

  test("a speed says whether it is one outright or a share of the speed of sound", () => {
    expect(understood("0.55 Mach", "speed").value).toEqual({ kind: "mach", value: 0.55 });
    expect(understood("100 m/s", "speed").value).toEqual({ kind: "absolute", value: 100 });
  });

  test("a bare number takes the unit of its kind, and says so", () => {
    expect(understood("1.5", "length", "in")).toMatchObject({ unit: "in", unitTyped: false, decimals: 1 });
    expect(understood("1.5 mm", "length", "in")).toMatchObject({ unit: "mm", unitTyped: true });
    expect(understood("11/32", "length", "in").value).toBeCloseTo(0.00873125, 12);
  });

  test("decimals and the size of the last digit", () => {
    expect(understood("12.10 mm", "length")).toMatchObject({ decimals: 2, resolution: 1e-5 });
    expect(understood(".123456789012345 in", "length").resolution).toBeCloseTo(0.0254e-15, 28);
    expect(understood("118 cfm", "flow").resolution).toBeCloseTo(0.3048 ** 3 / 60, 12);
    expect(understood("68 degF", "temperature").resolution).toBeCloseTo(5 / 9, 12);
    expect(understood("11/32 in", "length")).toMatchObject({ decimals: 3, resolution: 0.0254 / 32 });
  });
});

test("what a number is read as, its digits as typed and what follows it without blanks", () => {
  expect(parseLeadingNumber("-1 1/4  in ", "length")).toEqual({
    ok: true,
    value: -1.25,
    digits: "-1 1/4",
    decimals: undefined,
    step: 0.25,
    rest: "in",
  });
  expect(parseLeadingNumber("3/8 in", "length")).toMatchObject({
    value: 0.375,
    digits: "3/8",
    step: 0.125,
    rest: "in",
  });
  expect(parseLeadingNumber(".50  mm", "length")).toMatchObject({ value: 0.5, digits: ".50", decimals: 2, rest: "mm" });
  expect(parseLeadingNumber("+12. mm", "length")).toMatchObject({ value: 12, decimals: 0, step: 1, rest: "mm" });
});

describe("what is refused", () => {
  test.each([
    ["34", "length", "units/missing-unit", "a length needs a unit", "write 34 mm or 34 in"],
    ["mm 34", "length", "units/order", "the unit `mm` stands before its number", "write 34 mm"],
    [
      "kg 34",
      "length",
      "units/not-a-number",
      "`kg 34` is not a length",
      "write a number with a unit: in, thou, mm, cm, um or uin",
    ],
    [
      "11/32 im",
      "length",
      "units/unknown-unit",
      "`im` is not a unit of a length",
      expect.stringMatching(/^did you mean 11\/32 /),
    ],
    ["45", "angle", "units/missing-unit", "an angle needs a unit", "write 45 deg"],
    [
      "3 kg",
      "length",
      "units/unknown-unit",
      "`kg` is not a unit of a length",
      "accepted units: in, thou, mm, cm, um or uin",
    ],
    [
      "3 kPa",
      "length",
      "units/wrong-kind",
      "`kPa` is the unit of a pressure, not of a length",
      "accepted units: in, thou, mm, cm, um or uin",
    ],
    [
      "3 %",
      "length",
      "units/wrong-kind",
      "`%` is the unit of a percentage or plain number, not of a length",
      "accepted units: in, thou, mm, cm, um or uin",
    ],
    [
      "5 mm",
      "ratio",
      "units/wrong-kind",
      "`mm` is the unit of a length, not of a percentage or plain number",
      "write 5 % or a plain number",
    ],
    [
      "3 inc",
      "length",
      "units/unknown-unit",
      "`inc` is not a unit of a length",
      "did you mean 3 in? Accepted units: in, thou, mm, cm, um or uin",
    ],
    [
      "34,5 mm",
      "length",
      "units/decimal-comma",
      "`34,5` has a comma in the number",
      "write 34.5 mm; thousands take no comma",
    ],
    ["1e3 mm", "length", "units/exponent", "`1e3` is written with an exponent", "write the number in full"],
    [
      "NaN mm",
      "length",
      "units/not-a-number",
      "`NaN mm` is not a length",
      "write a number with a unit: in, thou, mm, cm, um or uin",
    ],
    [
      "Infinity",
      "length",
      "units/not-a-number",
      "`Infinity` is not a length",
      "write a number with a unit: in, thou, mm, cm, um or uin",
    ],
    [
      "",
      "length",
      "units/not-a-number",
      "a length is missing",
      "write a number with a unit: in, thou, mm, cm, um or uin",
    ],
    [
      "1.2.3 mm",
      "length",
      "units/not-a-number",
      "`1.2.3 mm` is not a length",
      "write a number with a unit: in, thou, mm, cm, um or uin",
    ],
    ["−0.88 in", "length", "units/minus", "`−` is a dash, not a minus sign", "write -0.88 in"],
    ["– 5 degC", "temperature", "units/minus", "`–` is a dash, not a minus sign", "write -5 degC"],
    ["Mach 0.55", "speed", "units/order", "the unit `Mach` stands before its number", "write 0.55 Mach"],
    ["1/0 in", "length", "units/fraction", "`1/0` divides by zero", "write the fraction as 11/32 in"],
    [
      "1234567890123456 mm",
      "length",
      "units/too-many-digits",
      "`1234567890123456` has more digits than can be kept",
      "write at most 15",
    ],
  ] as const)("%s as %s", (text, kind, code, message, hint) => {
    expect(parseQuantity(text, kind)).toEqual({ ok: false, code, message, hint });
  });

  test("a percentage typed as 45", () => {
    expect(parsePercentage("45")).toEqual({
      ok: false,
      code: "units/missing-percent",
      message: "a percentage needs its sign",
      hint: "write 45 %",
    });
    expect(parsePercentage("45 %")).toMatchObject({ ok: true, value: 0.45 });
    expect(parsePercentage("0.45")).toMatchObject({ ok: true, value: 0.45 });
    expect(parsePercentage("1").ok).toBe(false);
  });
});

const anyUnit = fc
  .constantFrom(...KINDS)
  .chain((kind) => fc.constantFrom(...unitsOf(kind)).map((unit) => [kind, unit] as const));

test("law: what is typed with a unit is that number of that unit", () =>
  fc.assert(
    fc.property(
      anyUnit,
      fc.integer({ min: 0, max: 9_999_999 }),
      fc.integer({ min: 0, max: 4 }),
      ([kind, unit], digits, decimals) => {
        const number = (digits / 10 ** decimals).toFixed(decimals);
        const text = unit.name === "plain" ? number : `${number} ${unit.name}`;
        const read = understood(text, kind);
        const si = typeof read.value === "object" ? read.value.value : (read.value as number);
        expect(si / unit.factor - unit.offset).toBeCloseTo(Number(number), 6);
        expect(read).toMatchObject({ unit: unit.name, decimals });
      },
    ),
    { seed: 1 },
  ));

test("law: no text throws, and none gives a number that is not finite", () =>
  fc.assert(
    fc.property(
      fc.oneof(fc.string(), fc.string({ unit: fc.constantFrom(...'0123456789./-+,eE%"° inm−') })),
      fc.constantFrom(...KINDS),
      (text, kind) => {
        const read = parseQuantity(text, kind, unitsOf(kind)[0]!.name);
        if (!read.ok) return read.message !== "";
        const si = typeof read.value === "object" ? read.value.value : (read.value as number);
        return Number.isFinite(si) && read.resolution > 0;
      },
    ),
    { seed: 1 },
  ));
