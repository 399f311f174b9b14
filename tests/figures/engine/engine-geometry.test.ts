import { describe, expect, test } from "vitest";
import { camMeanFlow } from "../../../src/figures/engine/cam-mean-flow.ts";
import { speedGrid } from "../../../src/figures/engine/engine-figures.ts";
import { inletMachIndex, machIndexRpm } from "../../../src/figures/engine/inlet-mach-index.ts";
import { openingFlow } from "../../../src/figures/engine/opening-flow.ts";
import { pinchLimitRpm, pinchSpeed } from "../../../src/figures/engine/pinch-speed.ts";
import { highestPistonSpeed, meanPistonSpeed, pistonTravel } from "../../../src/figures/engine/piston-speed.ts";
import { compressionRatio } from "../../../src/figures/geometry/chamber-figures.ts";
import { raisedCosineDuration, raisedCosineLift } from "../../../src/figures/math/raised-cosine.ts";
import { cubicMetres, metres, metresPerSecond, radians, rpm, squareMetres } from "../../../src/units/quantity.ts";
import { degrees, INCH, millimetres } from "../model-fixture.ts";
import { published } from "../published.ts";
import { fc } from "../seeded.ts";
import { flowCurve } from "../without-units.ts";

describe("published engine geometry (Heywood 1988, §2.2)", () => {
  test.each(published("engine-geometry", "slider-crank"))("travel at $theta_deg_ATDC°", (row) => {
    const travel = pistonTravel(millimetres(row.stroke_mm), millimetres(row.rod_mm), degrees(row.theta_deg_ATDC));
    expect(travel * 1000).toBeCloseTo(row.piston_travel_from_TDC_mm, 7);
  });
  test.each(published("engine-geometry", "mean-piston-speed"))("mean piston speed, $stroke_mm mm", (row) => {
    expect(meanPistonSpeed(millimetres(row.stroke_mm), rpm(row.rpm))).toBeCloseTo(row.Sp_m_s, 7);
  });
  test.each(published("engine-geometry", "max-piston-speed"))("highest piston speed, $stroke_mm mm", (row) => {
    expect(highestPistonSpeed(millimetres(row.stroke_mm), millimetres(row.rod_mm), rpm(row.rpm))).toBeCloseTo(
      row.v_max_m_s,
      6,
    );
  });
  test.each(published("engine-geometry", "compression-ratio"))("compression ratio $CR", (row) => {
    const engine = {
      bore: millimetres(row.bore_mm),
      stroke: millimetres(row.stroke_mm),
      gasket: {
        kind: "ring",
        bore: millimetres(row.gasket_bore_mm),
        compressed: millimetres(row.gasket_thickness_mm),
      } as const,
      piston: { dish: cubicMetres(row.piston_dish_cm3 * 1e-6), belowDeck: millimetres(row.deck_clearance_mm) },
      cams: {},
    };
    expect(compressionRatio(engine, cubicMetres(row.chamber_cm3 * 1e-6))).toBeCloseTo(row.CR, 7);
    expect(compressionRatio({ ...engine, piston: undefined }, cubicMetres(5e-5))).toBeUndefined();
    expect(compressionRatio({ ...engine, gasket: undefined }, cubicMetres(5e-5))).toBeUndefined();
  });
  test.each(published("mach-index", "Z"))("inlet Mach index $Z", (row) => {
    const area = squareMetres((row.n_inlet * row.Ci * Math.PI * row.Di_m ** 2) / 4);
    const sound = metresPerSecond(row.a_m_s);
    expect(inletMachIndex(metres(row.bore_m), metres(row.stroke_m), rpm(row.rpm), area, sound)).toBeCloseTo(row.Z, 8);
    expect(machIndexRpm(metres(row.bore_m), metres(row.stroke_m), 0.6, area, sound)).toBeCloseTo(row.rpm_at_Z_0_6, 3);
  });
});

describe("pinch, against the rule of thumb", () => {
  // Common practice: area in square inches = bore² × stroke × rpm × 0.00353 ÷ speed in ft/s.
  test.each([
    [2.0, 0.1],
    [1.9, 0.4],
    [1.75, 1.0],
    [1.5, 2.4],
  ])("rod ÷ stroke %f: the exact form is %f %% higher", (rodRatio, percent) => {
    const [bore, stroke, speed, area] = [4, 3.5, 6500, 2];
    const rule = (bore ** 2 * stroke * speed * 0.00353) / area;
    const inch = (value: number) => metres(value * INCH);
    const exact = pinchSpeed(
      inch(bore),
      inch(stroke),
      inch(stroke * rodRatio),
      squareMetres(area * INCH ** 2),
      rpm(speed),
    );
    expect(Math.abs((exact / 0.3048 / rule - 1) * 100 - percent)).toBeLessThanOrEqual(0.05);
  });
  test("two pinches reach 0.55 Mach at engine speeds in the ratio of their areas", () =>
    fc.assert(
      fc.property(
        fc.double({ min: 3e-4, max: 3e-3, noNaN: true }),
        fc.double({ min: 0.5, max: 2, noNaN: true }),
        (area, k) => {
          const at = (pinch: number) =>
            pinchLimitRpm(metres(0.09), metres(0.08), metres(0.14), squareMetres(pinch), metresPerSecond(0.55 * 343));
          expect(at(area * k) / at(area)).toBeCloseTo(k, 9);
        },
      ),
    ));
});

describe("cam", () => {
  test("a raised cosine has the stated duration at the check lift", () =>
    fc.assert(
      fc.property(
        fc.double({ min: 2, max: 6, noNaN: true }),
        fc.double({ min: 0.01, max: 0.6, noNaN: true }),
        (duration, share) => {
          const lift = metres(0.011);
          const full = raisedCosineDuration(radians(duration), metres(0.011 * share), lift);
          expect(raisedCosineLift(lift, 0.5 - duration / 2 / full)).toBeCloseTo(0.011 * share, 12);
        },
      ),
    ));
  test("the mean over a straight curve is that of sin²: a half", () => {
    expect(camMeanFlow(flowCurve([0.005, 0.01], [0.05, 0.1]), { netLift: metres(0.01) })).toBeCloseTo(0.05, 9);
  });
  test("a measured raised cosine gives the same mean as a calculated one", () => {
    const curve = flowCurve([0.002, 0.004, 0.006, 0.008, 0.01], [0.02, 0.04, 0.055, 0.065, 0.07]);
    const lift = metres(0.0095);
    const profile = Array.from({ length: 401 }, (_, k) => ({
      angle: radians((4.5 * k) / 400),
      lift: raisedCosineLift(lift, k / 400),
    }));
    const measured = camMeanFlow(curve, { netLift: lift, profile })!;
    expect(measured / camMeanFlow(curve, { netLift: lift })! - 1).toBeLessThan(2e-4);
  });
  test("the opening curve has the cam's mean, and the stated duration above the check lift", () => {
    const curve = flowCurve([0.002, 0.004, 0.006, 0.008, 0.01], [0.02, 0.04, 0.055, 0.065, 0.07]);
    const cam = { netLift: metres(0.0095), duration: radians(4), at: metres(0.002) };
    const opening = openingFlow(curve, cam);
    const mean = opening.reduce((sum, [, flow]) => sum + flow, 0) / (opening.length - 1);
    expect(mean / camMeanFlow(curve, cam)!).toBeCloseTo(1, 3);
    expect(opening[0]).toEqual([0, 0]);
    // At the check lift, 2 mm, the curve flows 0.02.
    const above = opening.filter(([, flow]) => flow > 0.02).map(([angle]) => angle);
    const step = opening[1]![0];
    expect(Math.abs(above[above.length - 1]! - above[0]! - 4)).toBeLessThan(2 * step);
    expect(openingFlow(curve, { netLift: metres(0.0095) })).toEqual([]);
  });
  test("a profile is followed from its opening to its closing", () => {
    const profile = [0, 1, 2, 3, 4, 5].map((angle, k) => ({
      angle: radians(angle),
      lift: metres([0, 0, 0.005, 0.01, 0, 0][k]!),
    }));
    expect(openingFlow(flowCurve([0.01], [0.1]), { netLift: metres(0.01), profile })).toEqual([
      [0, 0],
      [1, expect.closeTo(0.05, 9)],
      [2, expect.closeTo(0.1, 9)],
      [3, 0],
    ]);
  });
  test("lift beyond the last reading takes the flow of the last reading", () => {
    const curve = flowCurve([0.005], [0.05]);
    const beyond = camMeanFlow(curve, { netLift: metres(0.02) })!;
    expect(beyond).toBeLessThan(0.05);
    expect(beyond).toBeGreaterThan(0.03);
  });
});

test("speeds run in steps of 250 with both ends", () => {
  expect(speedGrid(rpm(2500), rpm(3250))).toEqual([2500, 2750, 3000, 3250]);
  expect(speedGrid(rpm(2500), rpm(3300))).toEqual([2500, 2750, 3000, 3250, 3300]);
  expect(speedGrid(rpm(3000), rpm(3000))).toEqual([3000]);
});
