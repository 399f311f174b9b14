import fc from "fast-check";
import { expect, test } from "vitest";
import { minimumFlowArea } from "../../../src/figures/geometry/valve-areas.ts";
import { type SectionPoint, type SectionSizes, sectionPoints } from "../../../src/sheet/drawing/section-points.ts";
import { metres, radians } from "../../../src/units/quantity.ts";

const deg = (value: number) => (value * Math.PI) / 180;
const mm = (value: number) => value / 1000;

const plain: SectionSizes = {
  head: mm(40),
  stem: mm(7),
  throat: mm(34),
  seatAngle: deg(45),
  // 1.5 mm in plan: 1.5 × √2 along the face.
  seatWidth: mm(1.5 * Math.SQRT2),
  lift: mm(6),
  bottomCuts: [],
};

const close = (got: SectionPoint | undefined, radius: number, height: number) => {
  expect(got?.[0]).toBeCloseTo(mm(radius), 7);
  expect(got?.[1]).toBeCloseTo(mm(height), 7);
};

// Hand calculation: 45° seat of 1.5 mm in plan under a 40 mm valve, so it rises 1.5 mm; 6 mm of lift takes the face down.
test("seat and face of a worked valve", () => {
  const points = sectionPoints(plain)!;
  close(points.seat.outer, 20, 0);
  close(points.seat.inner, 18.5, 1.5);
  close(points.face.outer, 20, -6);
  close(points.face.inner, 18.5, -4.5);
  close(points.shut, 20, 0);
  expect(points.stem).toBeCloseTo(mm(3.5), 9);
});

// Hand calculation: 1.5 mm from the seat's inner edge (18.5) to the throat (17); at 60° that rises 1.5 × √3 = 2.598 mm.
test("one bottom cut runs to the throat at its angle", () => {
  const points = sectionPoints({ ...plain, bottomCuts: [deg(60)] })!;
  expect(points.cutsKnown).toBe(true);
  expect(points.cuts).toHaveLength(1);
  close(points.cuts[0], 17, 1.5 + 2.598076);
});

// Hand calculation: two cuts of 0.75 mm in plan each: 0.75 × tan 60° = 1.299, 0.75 × tan 70° = 2.0606.
test("two bottom cuts share the way", () => {
  const points = sectionPoints({ ...plain, bottomCuts: [deg(60), deg(70)] })!;
  close(points.cuts[0], 17.75, 1.5 + 1.299038);
  close(points.cuts[1], 17, 1.5 + 1.299038 + 2.060608);
});

test("cuts too steep to reach the throat are not claimed", () => {
  const points = sectionPoints({ ...plain, bottomCuts: [deg(89)] })!;
  expect(points.cutsKnown).toBe(false);
  expect(points.cuts.at(-1)![0]).toBeCloseTo(mm(17), 9);
});

// Hand calculation: a seat of 39 mm outside under a 40 mm valve: the valve's edge sits 0.5 mm lower on the 45° cone.
test("a seat smaller than the valve", () => {
  const points = sectionPoints({ ...plain, seatOutside: mm(39) })!;
  close(points.seat.inner, 18, 1.5);
  close(points.shut, 20, -0.5);
  close(points.face.outer, 20, -6.5);
});

// Hand calculation: a back cut of 30°, 0.8 mm wide: 0.6928 mm inwards, 0.4 mm up; a margin of 1.2 mm down.
test("back cut and margin where stated", () => {
  const points = sectionPoints({ ...plain, backCut: { angle: deg(30), width: mm(0.8) }, margin: mm(1.2) })!;
  close(points.backCut, 18.5 - 0.69282, -4.5 + 0.4);
  close(points.foot, 20, -7.2);
});

test("sizes that do not go together make no section", () => {
  for (const wrong of [
    { throat: mm(38) },
    { stem: mm(35) },
    { seatAngle: deg(90) },
    { seatOutside: mm(50), seatWidth: mm(1) },
    { seatWidth: Number.NaN },
  ])
    expect(sectionPoints({ ...plain, ...wrong })).toBeUndefined();
});

/** Distance between two segments that do not cross: the least from an end of one to the other. */
function apart(a: readonly SectionPoint[], b: readonly SectionPoint[]): number {
  const toSegment = (
    [x, y]: SectionPoint,
    [[x0, y0], [x1, y1]]: readonly SectionPoint[] & { 0: SectionPoint; 1: SectionPoint },
  ) => {
    const [dx, dy] = [x1 - x0, y1 - y0];
    const share = Math.min(1, Math.max(0, ((x - x0) * dx + (y - y0) * dy) / (dx * dx + dy * dy)));
    return Math.hypot(x - x0 - share * dx, y - y0 - share * dy);
  };
  const [p, q] = [a as never, b as never];
  return Math.min(...a.map((point) => toSegment(point, q)), ...b.map((point) => toSegment(point, p)));
}

// Heywood, Internal Combustion Engine Fundamentals (1988), §6.3.2: the smallest area up to stage 2 is the cone spanned by
// the shortest line from seat to valve. Equation 6.7: that line is L cos β long; 6.8: √((L − w tan β)² + w²).
test("the drawn gap is the one of Heywood's equations", () =>
  fc.assert(
    fc.property(
      fc.double({ min: 20, max: 60, noNaN: true }),
      fc.double({ min: 20, max: 60, noNaN: true }),
      fc.double({ min: 0.5, max: 3, noNaN: true }),
      fc.double({ min: 0.1, max: 15, noNaN: true }),
      (head, angle, width, lift) => {
        const [beta, radial] = [deg(angle), width * Math.cos(deg(angle))];
        const throat = head - 2 * radial - 0.5;
        const points = sectionPoints({
          ...plain,
          head: mm(head),
          throat: mm(throat),
          seatAngle: beta,
          seatWidth: mm(width),
          lift: mm(lift),
        })!;
        const gap = apart([points.seat.outer, points.seat.inner], [points.face.outer, points.face.inner]);
        const { area, stage } = minimumFlowArea(
          {
            outside: metres(mm(head)),
            faceWidth: metres(mm(width)),
            angle: radians(beta),
            throat: metres(mm(throat)),
            stem: metres(mm(7)),
          },
          metres(mm(lift)),
        );
        if (stage === 3) return;
        // Mean diameter of the cone: at 6.8 between the seats' edges; at 6.7 from the seat's inner edge outwards.
        const wide = stage === 2 ? head - radial : head - 2 * radial + (lift / 2) * Math.sin(2 * beta);
        expect(gap * Math.PI * mm(wide)).toBeCloseTo(area, 9);
      },
    ),
    { seed: 31, numRuns: 200 },
  ));
