import { createRequire } from "node:module";
import { describe, expect, test } from "vitest";
import { humidAirDensity } from "../../../src/figures/air/humid-air-density.ts";
import { incompleteBeta, logGamma } from "../../../src/figures/math/incomplete-beta.ts";
import { CONFIDENCE, studentT } from "../../../src/figures/math/student-t.ts";
import { kelvin, pascals, ratio } from "../../../src/units/quantity.ts";
import { fc } from "../seeded.ts";

/** General-purpose libraries by other hands, which reach the same numbers another way. Neither has types of its own. */
const load = createRequire(import.meta.url);
const psychrolib: {
  readonly SI: number;
  readonly SetUnitSystem: (system: number) => void;
  readonly GetHumRatioFromRelHum: (celsius: number, relativeHumidity: number, pascals: number) => number;
  readonly GetMoistAirDensity: (celsius: number, humidityRatio: number, pascals: number) => number;
} = load("psychrolib");
const {
  jStat,
}: {
  readonly jStat: {
    readonly ibeta: (x: number, a: number, b: number) => number;
    readonly gammaln: (x: number) => number;
    readonly studentt: { readonly inv: (p: number, dof: number) => number };
    readonly normal: { readonly inv: (p: number, mean: number, deviation: number) => number };
  };
} = load("jstat");

describe("psychrolib: humid air as a perfect gas, after ASHRAE Fundamentals (2017), ch. 1", () => {
  psychrolib.SetUnitSystem(psychrolib.SI);
  const witness = (celsius: number, pressure: number, humidity: number) =>
    psychrolib.GetMoistAirDensity(celsius, psychrolib.GetHumRatioFromRelHum(celsius, humidity, pressure), pressure);
  const ours = (celsius: number, pressure: number, humidity: number) =>
    humidAirDensity(kelvin(celsius + 273.15), pascals(pressure), ratio(humidity));

  // ASHRAE states perfect-gas relations good to 0.7 % from −50 to 50 °C; its tables of dry air are met to 0.1 %.
  test("agrees to 0.1 % wherever a bench stands, ten times better than the relations promise", () =>
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 35, noNaN: true }),
        fc.double({ min: 80_000, max: 106_000, noNaN: true }),
        fc.double({ min: 0, max: 0.95, noNaN: true }),
        (celsius, pressure, humidity) => {
          const off = ours(celsius, pressure, humidity) / witness(celsius, pressure, humidity) - 1;
          expect(Math.abs(off)).toBeLessThan(0.001);
        },
      ),
    ));
  // CIPM-2007 knows how far air is from a perfect gas, Z = 0.9996 at 20 °C; the witness does not.
  test("is lighter than CIPM-2007 by the compressibility that it leaves out", () => {
    const off = ours(20, 101325, 0.5) / witness(20, 101325, 0.5) - 1;
    expect(off).toBeGreaterThan(0.0002);
    expect(off).toBeLessThan(0.0007);
  });
  test("humid air is lighter by the same share", () => {
    const share = (of: (celsius: number, pressure: number, humidity: number) => number) =>
      of(30, 101325, 0.9) / of(30, 101325, 0) - 1;
    expect(share(ours)).toBeLessThan(-0.01);
    expect(share(ours) / share(witness)).toBeCloseTo(1, 1);
  });
});

describe("jstat: distributions", () => {
  test("Student's t, two-sided, at any level and any degrees of freedom", () =>
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 400, noNaN: true }),
        fc.double({ min: 0.5, max: 0.995, noNaN: true }),
        (dof, confidence) => {
          // The witness stops its search at about 1e-7.
          const off = studentT(dof, confidence) / jStat.studentt.inv(0.5 + confidence / 2, dof) - 1;
          expect(Math.abs(off)).toBeLessThan(1e-6);
        },
      ),
    ));
  test("the usual confidence is that of k = 2", () => {
    expect(jStat.normal.inv(0.5 + CONFIDENCE / 2, 0, 1)).toBeCloseTo(2, 9);
    for (const dof of [1, 2, 3, 4, 9, 29])
      expect(studentT(dof) / jStat.studentt.inv(0.5 + CONFIDENCE / 2, dof)).toBeCloseTo(1, 7);
  });
  test("incomplete beta and gamma", () =>
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        fc.double({ min: 0.5, max: 60, noNaN: true }),
        fc.double({ min: 0.5, max: 60, noNaN: true }),
        (x, a, b) => {
          // Both run the same kind of continued fraction; the witness stops at 3e-7.
          expect(Math.abs(incompleteBeta(x, a, b) - jStat.ibeta(x, a, b))).toBeLessThan(1e-6);
          expect(logGamma(a)).toBeCloseTo(jStat.gammaln(a), 8);
        },
      ),
    ));
});
