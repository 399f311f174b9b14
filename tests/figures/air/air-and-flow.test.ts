import { describe, expect, test } from "vitest";
import { humidAirDensity } from "../../../src/figures/air/humid-air-density.ts";
import { conversionError, idealFlowPerArea } from "../../../src/figures/air/ideal-flow.ts";
import {
  criticalPressureRatio,
  flowFunction,
  isentropicMassFlux,
} from "../../../src/figures/air/isentropic-mass-flux.ts";
import { soundSpeed } from "../../../src/figures/air/sound-speed.ts";
import { readingToReference, referenceFactor } from "../../../src/figures/sweep/reading-to-reference.ts";
import type { Air, Bench } from "../../../src/model/model.ts";
import { kelvin, pascals, ratio } from "../../../src/units/quantity.ts";
import { CFM, cfm, INCH, inchesOfWater } from "../model-fixture.ts";
import { published } from "../published.ts";
import { fc } from "../seeded.ts";

const dry: Air = { temperature: kelvin(293.15), pressure: pascals(101325), relativeHumidity: ratio(0) };

describe("humid air", () => {
  test.each(published("moist-air", "cipm2007"))("CIPM-2007 at $t_degC °C, $p_Pa Pa, $rh", (row) => {
    const density = humidAirDensity(kelvin(row.t_degC + 273.15), pascals(row.p_Pa), ratio(row.rh));
    expect(Math.abs(density / row.rho_kg_m3 - 1)).toBeLessThan(1e-9);
  });
  test("a published density, to its last digit", () => {
    const [row] = published("moist-air", "cipm2007-published");
    const density = humidAirDensity(kelvin(row.t_degC + 273.15), pascals(row.p_mmHg * row.mmHg_Pa), ratio(row.rh));
    expect(Math.abs(density - row.rho_published_kg_m3)).toBeLessThanOrEqual(0.5e-5);
  });
  test("dry air agrees with ASHRAE's table within its tolerance", () => {
    const [row] = published("moist-air", "ashrae-dry-air");
    const volume = 1 / humidAirDensity(kelvin(row.t_degC + 273.15), pascals(row.p_Pa), ratio(0));
    expect(Math.abs(volume / row.published_v_m3_kg - 1)).toBeLessThan(row.rel_tol);
  });
});

// U.S. Standard Atmosphere 1976, printed to 0.01 m/s; R = 287.05 moves it by 5 parts in a million.
describe("speed of sound", () => {
  test.each(published("standard-atmosphere").filter((row) => row.a_m_s !== undefined && row.a_m_s !== null))(
    "at $T_K K",
    (row) => {
      expect(Math.abs(soundSpeed(kelvin(row.T_K)) - row.a_m_s)).toBeLessThan(0.012);
    },
  );
});

describe("isentropic flow", () => {
  test("critical ratio and choked flow function", () => {
    const [row] = published("compressible-flow", "critical");
    expect(criticalPressureRatio()).toBeCloseTo(row.pr_crit, 10);
    expect(flowFunction(0)).toBeCloseTo(row.psi_choked, 10);
    // Printed in textbooks as 0.528 and 0.685.
    expect(criticalPressureRatio().toFixed(3)).toBe("0.528");
    expect(flowFunction(0.4).toFixed(3)).toBe("0.685");
  });
  test.each(published("compressible-flow", "flow-function"))("flow function at $pr, γ = $gamma", (row) => {
    expect(Math.abs(flowFunction(row.pr, row.gamma) / row.psi - 1)).toBeLessThan(1e-9);
  });
  test.each(published("compressible-flow", "mass-flow"))("mass flow to $pT_Pa Pa", (row) => {
    const flux = isentropicMassFlux(pascals(row.p0_Pa), pascals(row.pT_Pa), kelvin(row.T0_K));
    expect(Math.abs((flux * row.A_ref_m2 * row.Cd) / row.mdot_kg_s - 1)).toBeLessThan(1e-9);
  });
  // NACA Report 1135: A*/A is the flow function over its choked value.
  test.each(published("naca1135", "row"))("area ratio of the tables at Mach $M", (row) => {
    expect(Math.abs((flowFunction(0) / flowFunction(row.p_pt)) * (1 / row.A_Astar) - 1)).toBeLessThan(3e-8);
  });
  test.each(published("valve-flow", "cd"))("coefficient on the curtain at $L_m m", (row) => {
    const flux = isentropicMassFlux(pascals(row.p0_Pa), pascals(row.p0_Pa - row.dp_Pa), kelvin(row.T0_K));
    expect(
      Math.abs((row.Q_m3_s * row.rho_upstream) / (Math.PI * row.Dv_m * row.L_m * flux) / row.Cd_curtain - 1),
    ).toBeLessThan(1e-8);
  });
  // Common practice quotes about 141.6 and 146.7 cfm through a square inch at 28 inH2O.
  test.each([
    ["intake", 141.6],
    ["exhaust", 146.7],
  ] as const)("ideal %s flow at 28 inH2O", (side, expected) => {
    const flow = (idealFlowPerArea(side, inchesOfWater(28), dry) * INCH ** 2) / CFM;
    expect(Math.abs(flow - expected)).toBeLessThanOrEqual(0.05);
  });
});

describe("a reading at reference conditions", () => {
  const bench = (changes: Partial<Bench> = {}): Bench => ({
    testPressure: inchesOfWater(10),
    reads: "flow",
    meter: "orifice",
    attached: {},
    liftSetting: 0 as Bench["liftSetting"],
    liftSettingIsDefault: true,
    ...changes,
  });
  const reference = { testPressure: inchesOfWater(28), air: dry };

  // Common practice: √(28 ÷ 10) = 1.673.
  test("from 10 to 28 inH2O", () => {
    expect(referenceFactor(bench(), inchesOfWater(10), reference).toFixed(3)).toBe("1.673");
    expect(readingToReference(cfm(200), bench(), "intake", inchesOfWater(10), reference) / CFM).toBeCloseTo(
      334.6640106,
      7,
    );
  });
  test("leakage comes off first, scaled from its own pressure", () => {
    // 1.2 cfm at 25 inH2O is 0.7589 cfm at 10; (40 − 0.7589) × 1.67332 = 65.663.
    const leaky = bench({ leakage: { intake: cfm(1.2), testPressure: inchesOfWater(25) } });
    expect(readingToReference(cfm(40), leaky, "intake", inchesOfWater(10), reference) / CFM).toBeCloseTo(65.6629, 3);
    expect(readingToReference(cfm(40), leaky, "exhaust", inchesOfWater(10), reference) / CFM).toBeCloseTo(66.9328, 3);
  });
  test("a meter in the same stream cancels density; others do not", () => {
    const hot: Air = { temperature: kelvin(308.15), pressure: pascals(95000), relativeHumidity: ratio(0.5) };
    const density = Math.sqrt(
      humidAirDensity(hot.temperature, hot.pressure, hot.relativeHumidity) /
        humidAirDensity(kelvin(293.15), pascals(101325), ratio(0)),
    );
    const at = inchesOfWater(28);
    expect(referenceFactor(bench({ air: hot }), at, reference)).toBe(1);
    expect(referenceFactor(bench({ air: hot, meter: "volumetric" }), at, reference)).toBeCloseTo(density, 12);
    expect(referenceFactor(bench({ air: hot, meter: "mass" }), at, reference)).toBeCloseTo(1 / density, 12);
    expect(density).toBeLessThan(0.96);
  });
  test("the square-root rule's own error: about 2.5 % intake and 0.2 % exhaust from 10 to 28", () => {
    expect(conversionError("intake", inchesOfWater(10), inchesOfWater(28), dry)).toBeCloseTo(0.025, 3);
    expect(conversionError("exhaust", inchesOfWater(10), inchesOfWater(28), dry)).toBeCloseTo(0.002, 3);
    expect(conversionError("intake", inchesOfWater(28), inchesOfWater(28), dry)).toBe(0);
  });
  test("flow goes with the root of pressure, and back again", () =>
    fc.assert(
      fc.property(
        fc.double({ min: 500, max: 12000, noNaN: true }),
        fc.double({ min: 500, max: 12000, noNaN: true }),
        (from, to) => {
          const there = referenceFactor(bench(), pascals(from), { ...reference, testPressure: pascals(to) });
          const back = referenceFactor(bench(), pascals(to), { ...reference, testPressure: pascals(from) });
          expect(there * back).toBeCloseTo(1, 12);
          expect(there ** 2).toBeCloseTo(to / from, 9);
        },
      ),
    ));
});
