import fc from "fast-check";
import { expect, test } from "vitest";
import { boreDistance, discDistance, type PlanDisc, tiltedDisc } from "../../../src/sheet/drawing/plan-distance.ts";

// Hand calculation: circles of 34 and 28 with centres 3-4-5 × 8 apart: 40 − 17 − 14 = 9.
test("two upright valves: between centres, less both radii", () => {
  const { distance, from, to } = discDistance(tiltedDisc([0, 0], 34, 0, 0), tiltedDisc([24, 32], 28, 0, 0));
  expect(distance).toBeCloseTo(9, 9);
  expect(Math.hypot(to[0] - from[0], to[1] - from[1])).toBeCloseTo(9, 6);
});

// Hand calculation: 40 across tilted by 60° shows 20: from a centre 15 off, the edges stand at 15 ± 10.
test("a tilted disc is foreshortened along its tilt only", () => {
  const disc = tiltedDisc([15, 0], 40, Math.PI / 3, 0);
  expect(disc.across).toBeCloseTo(10, 9);
  expect(boreDistance(disc, 40).distance).toBeLessThanOrEqual(15);
  expect(discDistance(disc, tiltedDisc([-15, 0], 40, Math.PI / 3, 0)).distance).toBeCloseTo(10, 6);
  expect(discDistance(disc, tiltedDisc([15, 50], 40, Math.PI / 3, 0)).distance).toBeCloseTo(10, 6);
});

// Hand calculation: a circle of 30 at 20 from the middle of a bore of 80: 40 − 20 − 15 = 5.
test("from a valve to the bore's wall", () => {
  expect(boreDistance(tiltedDisc([-12, 16], 30, 0, 0), 40).distance).toBeCloseTo(5, 9);
  expect(boreDistance(tiltedDisc([-24, 32], 30, 0, 0), 40).distance).toBeCloseTo(-15, 9);
});

/** Points of a disc's edge, by its definition. */
const edgeOf = ({ centre: [x, y], across, along, tilt }: PlanDisc) =>
  Array.from({ length: 720 }, (_, i) => {
    const turn = (i * Math.PI) / 360;
    const [u, v] = [across * Math.cos(turn), along * Math.sin(turn)];
    return [x + u * Math.cos(tilt) - v * Math.sin(tilt), y + u * Math.sin(tilt) + v * Math.cos(tilt)] as const;
  });

const disc = fc.record({
  x: fc.double({ min: -40, max: 40, noNaN: true }),
  y: fc.double({ min: -40, max: 40, noNaN: true }),
  diameter: fc.double({ min: 15, max: 40, noNaN: true }),
});

// Compared with a brute-force search over points of both edges.
test("no two points of the edges lie nearer", () =>
  fc.assert(
    fc.property(
      disc,
      disc,
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.double({ min: 0, max: 6, noNaN: true }),
      (a, b, angle, tilt) => {
        const [one, two] = [a, b].map(({ x, y, diameter }) => tiltedDisc([x, y], diameter, angle, tilt)) as [
          PlanDisc,
          PlanDisc,
        ];
        const { distance } = discDistance(one, two);
        const toBore = boreDistance(one, 80);
        const edge = edgeOf(one);
        const least = Math.min(...edge.map(([x, y]) => 80 - Math.hypot(x, y)));
        expect(toBore.distance).toBeCloseTo(least, 1);
        if (distance <= 0) return;
        const other = edgeOf(two);
        const nearest = Math.min(
          ...edge.map(([x, y]) => other.reduce((near, [p, q]) => Math.min(near, Math.hypot(p - x, q - y)), 1e9)),
        );
        expect(nearest).toBeGreaterThanOrEqual(distance - 1e-9);
        expect(nearest).toBeCloseTo(distance, 1);
      },
    ),
    { seed: 7, numRuns: 8 },
  ));
