import { describe, expect, test } from "vitest";
import { pchipSlopes } from "../../../src/figures/math/pchip.ts";
import { published } from "../published.ts";
import { fc } from "../seeded.ts";
import { curveAt, flowCurve, integralTo, meanFlow } from "../without-units.ts";

describe("PCHIP against published data sets", () => {
  test.each(published("monotone-interpolation", "pchip"))("$dataset", (row) => {
    const d = pchipSlopes(row.x, row.y);
    const scale = Math.max(...row.derivatives.map(Math.abs));
    for (const [k, expected] of row.derivatives.entries())
      expect(Math.abs(d[k]! - expected)).toBeLessThan(2e-9 * scale);
    const curve = { x: row.x, y: row.y, d };
    const at = row.eval_x;
    const values = row.eval_y;
    expect(at.length).toBeGreaterThan(3);
    for (const [k, x] of at.entries()) expect(curveAt(curve, x)).toBeCloseTo(values[k], 8);
  });
});

const sweeps = fc
  .array(
    fc.tuple(fc.double({ min: 0.0005, max: 0.004, noNaN: true }), fc.double({ min: 0.001, max: 0.2, noNaN: true })),
    { minLength: 1, maxLength: 14 },
  )
  .map((steps) => {
    let lift = 0;
    return steps.map(([step, flow]) => {
      lift += step;
      return [lift, flow] as const;
    });
  });

describe("laws", () => {
  test("the curve passes through every reading and stays between neighbours", () =>
    fc.assert(
      fc.property(sweeps, fc.double({ min: 0, max: 1, noNaN: true }), (rows, share) => {
        const curve = flowCurve(
          rows.map(([lift]) => lift),
          rows.map(([, flow]) => flow),
        );
        for (const [lift, flow] of rows) expect(curveAt(curve, lift)).toBeCloseTo(flow, 12);
        for (let k = 0; k + 1 < curve.x.length; k++) {
          const value = curveAt(curve, curve.x[k]! + share * (curve.x[k + 1]! - curve.x[k]!))!;
          expect(value).toBeGreaterThanOrEqual(Math.min(curve.y[k]!, curve.y[k + 1]!) - 1e-12);
          expect(value).toBeLessThanOrEqual(Math.max(curve.y[k]!, curve.y[k + 1]!) + 1e-12);
        }
      }),
    ));
  test("nothing is extrapolated", () => {
    const curve = flowCurve([0.001, 0.002], [0.01, 0.02]);
    expect(curveAt(curve, 0.0020001)).toBeUndefined();
    expect(curveAt(curve, -1e-9)).toBeUndefined();
    expect(curveAt(curve, 0)).toBe(0);
  });
  test("the integral is that of the curve", () =>
    fc.assert(
      fc.property(sweeps, (rows) => {
        const curve = flowCurve(
          rows.map(([lift]) => lift),
          rows.map(([, flow]) => flow),
        );
        const last = curve.x[curve.x.length - 1]!;
        // Simpson's rule is exact for cubics when its panels end at the knots.
        let sum = 0;
        for (let k = 0; k + 1 < curve.x.length; k++) {
          const [a, b] = [curve.x[k]!, curve.x[k + 1]!];
          sum += ((b - a) * (curveAt(curve, a)! + 4 * curveAt(curve, (a + b) / 2)! + curveAt(curve, b)!)) / 6;
        }
        expect(integralTo(curve, last) / sum).toBeCloseTo(1, 9);
      }),
    ));
  test("a mean lies within the readings and follows their scale", () =>
    fc.assert(
      fc.property(sweeps, fc.double({ min: 0.1, max: 10, noNaN: true }), (rows, k) => {
        const lifts = rows.map(([lift]) => lift);
        const flows = rows.map(([, flow]) => flow);
        const last = lifts[lifts.length - 1]!;
        const mean = meanFlow(flowCurve(lifts, flows), 0, last)!;
        expect(mean).toBeLessThanOrEqual(Math.max(...flows) + 1e-12);
        expect(mean).toBeGreaterThanOrEqual(0);
        expect(
          meanFlow(
            flowCurve(
              lifts,
              flows.map((flow) => flow * k),
            ),
            0,
            last,
          )! /
            mean /
            k,
        ).toBeCloseTo(1, 9);
      }),
    ));
});

// A straight line through (0, 0) is kept: mean over [1, 3] of Q = 2 L is 4.
test("worked mean", () => expect(meanFlow(flowCurve([1, 2, 3], [2, 4, 6]), 1, 3)).toBeCloseTo(4, 12));
