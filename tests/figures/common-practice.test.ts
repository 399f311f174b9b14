import { describe, expect, test } from "vitest";
import { humidAirDensity } from "../../src/figures/air/humid-air-density.ts";
import { computeFigures } from "../../src/figures/compute-figures.ts";
import { pinchSpeed } from "../../src/figures/engine/pinch-speed.ts";
import type { StageFigures } from "../../src/figures/figures.ts";
import { referenceFactor } from "../../src/figures/sweep/reading-to-reference.ts";
import { kelvin, pascals, ratio, rpm, squareMetres } from "../../src/units/quantity.ts";
import { CFM, INCH, inches, inchesOfWater, modelOf, type Row } from "./model-fixture.ts";

/** Rules of thumb of the trade, all of them common practice: what a porter would check us by, from memory. */
const FOOT = 0.3048;
const SQUARE_INCH = INCH ** 2;
const engine = { bore: inches(4), stroke: inches(3.5), rodLength: inches(5.7), cams: {} };
const stageOf = (flow: readonly Row[], pinch?: number): StageFigures => {
  const port = pinch === undefined ? {} : { pinch: { area: squareMetres(pinch * SQUARE_INCH), count: 1 } };
  return computeFigures(modelOf({ engine, stages: [{ intake: port, flow }] })).stages[0]!;
};

// Common practice. The exact factor is 144 square inches a square foot ÷ 60 seconds a minute.
test.each([
  [40, 1.2],
  [262, 2.3],
  [300, 2.85],
])("%f cfm through %f in² is 2.4 × cfm ÷ in² feet a second", (cfm, area) => {
  const [reading] = stageOf([[0.3, cfm]], area).intake!.readings;
  expect(reading!.pinch_velocity_m_s! / FOOT).toBeCloseTo((2.4 * cfm) / area, 9);
});

// Common practice.
test("from 10 to 28 inH2O is × 1.673", () => {
  const bench = modelOf({ stages: [{}] }).stages[0]!.bench;
  const { reference } = modelOf({});
  expect(referenceFactor(bench, inchesOfWater(10), reference).toFixed(3)).toBe("1.673");
});

describe("about 146 cfm through each square inch at 28 inH2O", () => {
  const perSquareInch = (metresPerSecond: number) => (metresPerSecond * SQUARE_INCH) / CFM;
  const { reference } = computeFigures(modelOf({}));
  const drop = inchesOfWater(28);
  const density = humidAirDensity(kelvin(293.15), pascals(101325), ratio(0));

  // Common practice takes air as incompressible, √(2 ΔP ÷ ρ), of a density near 1.2 kg/m³.
  test("is what incompressible air of everyday density does", () => {
    const rule = (rho: number) => perSquareInch(Math.sqrt((2 * drop) / rho));
    expect(Math.abs(rule(1.225) - 146)).toBeLessThan(0.5);
    expect(Math.abs(rule(density) - 147)).toBeLessThan(0.5);
  });
  // Air expands on its way into the depression below an intake, so less of it passes: about 3.8 % at 28 inH2O. Before an
  // exhaust it stands at ambient pressure plus ΔP, denser to begin with, which makes up nearly all of that.
  test("ours are 141.6 into an intake, and 146.7 out of an exhaust", () => {
    const { intake, exhaust } = reference.ideal_flow_per_area_m_s;
    expect(perSquareInch(intake).toFixed(1)).toBe("141.6");
    expect(perSquareInch(exhaust).toFixed(1)).toBe("146.7");
    const incompressible = Math.sqrt((2 * drop) / density);
    expect(1 - intake / incompressible).toBeCloseTo(0.038, 3);
    expect(Math.abs(1 - exhaust / incompressible)).toBeLessThan(0.005);
  });
});

describe("bore² × stroke × rpm × 0.00353 ÷ speed is the area in square inches", () => {
  // Common practice; the exact slider–crank bounds it.
  test.each([
    [2.0, 0, 0.1],
    [1.9, 0.4, 0.05],
    [1.75, 1.0, 0.05],
    [1.5, 2.4, 0.05],
  ])("at rod ÷ stroke %f the exact speed is %f %% higher, within %f", (rod, percent, slack) => {
    const exact = pinchSpeed(inches(4), inches(3.5), inches(3.5 * rod), squareMetres(2 * SQUARE_INCH), rpm(6500));
    const rule = (4 ** 2 * 3.5 * 6500 * 0.00353) / 2;
    expect(Math.abs((exact / FOOT / rule - 1) * 100 - percent)).toBeLessThanOrEqual(slack);
  });
});

describe("shapes of a curve", () => {
  const lifts = (rows: readonly { from_lift_m: number; to_lift_m: number }[]) =>
    rows.map((one) => [one.from_lift_m / INCH, one.to_lift_m / INCH].map((lift) => Number(lift.toFixed(3))));
  // Common practice.
  test("236, 262, 262 and 272 cfm: flat from 0.500 to 0.600 in, and holding after it", () => {
    const flow: Row[] = [
      [0.4, 236],
      [0.5, 262],
      [0.6, 262],
      [1.0, 272],
    ];
    const bench = { repeatability: { kind: "expanded", value: ratio(0.002) } } as const;
    const { intake } = computeFigures(modelOf({ bench, stages: [{ intake: {}, flow }] })).stages[0]!;
    expect(lifts(intake!.flat_spots!)).toEqual([[0.5, 0.6]]);
    expect(intake!.after_peak).toEqual({ to_lift_m: intake!.peak!.lift_m, change: 0 });
    expect(intake!.peak!.lift_m).toBeCloseTo(1.0 * INCH, 9);
  });
  // Common practice.
  test("268 cfm at 0.600 in, its peak, and 254 at 1.000: falls away by 5.2 %", () => {
    const { intake } = stageOf([
      [0.5, 262],
      [0.6, 268],
      [1.0, 254],
    ]);
    expect((100 * intake!.after_peak!.change).toFixed(1)).toBe("-5.2");
    expect(intake!.flat_spots!).toEqual([]);
  });
});

// Common practice.
test.each([
  [1.8, 2.1],
  [2.2, 2.9],
])(
  "on one engine pinches of %f and %f in² reach 0.55 Mach at engine speeds in the ratio of their areas",
  (small, large) => {
    const [one, other] = [small, large].map((pinch) => stageOf([[0.4, 220]], pinch).engine!);
    expect(other!.pinch_limit_rpm! / one!.pinch_limit_rpm!).toBeCloseTo(large / small, 9);
    const reached = pinchSpeed(
      engine.bore,
      engine.stroke,
      engine.rodLength,
      squareMetres(small * SQUARE_INCH),
      rpm(one!.pinch_limit_rpm!),
    );
    // 0.55 × the speed of sound at 20 °C, √(1.4 × 287.05 × 293.15).
    expect(reached).toBeCloseTo(0.55 * Math.sqrt(1.4 * 287.05 * 293.15), 6);
  },
);
