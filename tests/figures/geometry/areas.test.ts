import { describe, expect, test } from "vitest";
import { portCurtainArea, portMinimumArea, valveDiameter } from "../../../src/figures/geometry/port-geometry.ts";
import {
  circleArea,
  curtainArea,
  minimumFlowArea,
  radialSeatWidth,
  type SeatGeometry,
} from "../../../src/figures/geometry/valve-areas.ts";
import { curtainCoefficientAt } from "../../../src/figures/side/curtain-coefficient-at.ts";
import { roundedRectangleArea } from "../../../src/model/rounded-rectangle-area.ts";
import { metres } from "../../../src/units/quantity.ts";
import { degrees, describedPort, millimetres, portOf } from "../model-fixture.ts";
import { published } from "../published.ts";
import { fc } from "../seeded.ts";

// Heywood (1988) §6.3.2, eqs 6.7–6.9; ten digits computed from the printed equations.
describe("minimum flow area against the published equations", () => {
  test.each(published("valve-area", "area"))("$seat_deg° at $L_mm mm, stage $stage", (row) => {
    const seat: SeatGeometry = {
      outside: millimetres(row.Dv_mm),
      faceWidth: millimetres(row.w_radial_mm / Math.cos(degrees(row.seat_deg))),
      angle: degrees(row.seat_deg),
      throat: millimetres(row.Dp_mm),
      stem: millimetres(row.Ds_mm),
    };
    const { area, stage } = minimumFlowArea(seat, millimetres(row.L_mm));
    expect(Math.abs((area * 1e6) / row.A_min_mm2 - 1)).toBeLessThan(1e-9);
    expect(Math.abs((curtainArea(seat.outside, millimetres(row.L_mm)) * 1e6) / row.A_curtain_mm2 - 1)).toBeLessThan(
      1e-9,
    );
    const atJoint = [row.L_stage1_2_mm, row.L_stage2_3_mm].some((joint) => Math.abs(joint - row.L_mm) < 1e-6);
    if (!atJoint) expect(stage).toBe(row.stage);
  });
});

test("a seat measured along its face is taken radially", () => {
  const [row] = published("valve-area", "face-to-radial-width");
  const width = radialSeatWidth(millimetres(row.seat_width_along_face_mm), degrees(row.seat_deg));
  expect(width * 1000).toBeCloseTo(row.w_radial_mm, 9);
});

test("curtain and head area are equal at a quarter of the diameter", () => {
  expect(curtainArea(millimetres(40), millimetres(10))).toBeCloseTo(circleArea(millimetres(40)), 12);
});

// Hand calculation: π × 34 mm × 10 mm = 1068.14 mm².
test("curtain area, worked value", () => expect(curtainArea(metres(0.034), metres(0.01))).toBeCloseTo(1.06814e-3, 8));
test("curtain area refuses what no valve can do", () => {
  expect(() => curtainArea(metres(0), metres(0.01))).toThrow(RangeError);
  expect(() => curtainArea(metres(0.034), metres(-0.001))).toThrow(RangeError);
  expect(() => curtainArea(metres(Number.NaN), metres(0.01))).toThrow(RangeError);
});

test("rounded rectangle, published value", () => {
  const [row] = published("engine-geometry", "rounded-rectangle-port");
  const shape = {
    width: millimetres(row.width_mm),
    height: millimetres(row.height_mm),
    corner: millimetres(row.corner_radius_mm),
  };
  expect(roundedRectangleArea(shape) * 1e6).toBeCloseTo(row.area_mm2, 5);
});
test("a rectangle with corners of half its sides is a circle", () => {
  const shape = { width: metres(0.04), height: metres(0.04), corner: metres(0.02) };
  expect(roundedRectangleArea(shape)).toBeCloseTo(circleArea(metres(0.04)), 12);
});

const seats = fc.record({
  outside: fc.double({ min: 0.02, max: 0.06, noNaN: true }),
  faceWidth: fc.double({ min: 0.0006, max: 0.003, noNaN: true }),
  angle: fc.double({ min: 0.3, max: 1.0, noNaN: true }),
  throat: fc.double({ min: 0.75, max: 0.9, noNaN: true }),
  stem: fc.double({ min: 0.1, max: 0.25, noNaN: true }),
});
const built = (seat: { outside: number; faceWidth: number; angle: number; throat: number; stem: number }, scale = 1) =>
  ({
    outside: seat.outside * scale,
    faceWidth: seat.faceWidth * scale,
    angle: seat.angle,
    throat: seat.outside * seat.throat * scale,
    stem: seat.outside * seat.stem * scale,
  }) as SeatGeometry;

describe("laws", () => {
  test("areas grow with the square of size", () =>
    fc.assert(
      fc.property(
        seats,
        fc.double({ min: 1e-4, max: 0.02, noNaN: true }),
        fc.double({ min: 0.5, max: 3, noNaN: true }),
        (seat, lift, k) => {
          const one = minimumFlowArea(built(seat), metres(lift)).area;
          const other = minimumFlowArea(built(seat, k), metres(lift * k)).area;
          expect(other / one / k ** 2).toBeCloseTo(1, 9);
        },
      ),
    ));
  test("the minimum area never falls as the valve opens, nor exceeds the curtain", () =>
    fc.assert(
      fc.property(seats, fc.double({ min: 1e-4, max: 0.02, noNaN: true }), (seat, lift) => {
        const { area } = minimumFlowArea(built(seat), metres(lift));
        expect(minimumFlowArea(built(seat), metres(lift * 1.01)).area).toBeGreaterThanOrEqual(area * (1 - 1e-12));
        expect(area).toBeLessThanOrEqual(curtainArea(metres(seat.outside), metres(lift)) * (1 + 1e-12));
      }),
    ));
});

describe("areas of a port", () => {
  test("unlike valves are summed", () => {
    const port = portOf({ valves: [{ head: metres(0.03) }, { head: metres(0.034) }] });
    const expected = curtainArea(metres(0.03), metres(0.008)) + curtainArea(metres(0.034), metres(0.008));
    expect(portCurtainArea(port, metres(0.008))).toBeCloseTo(expected, 12);
    expect(valveDiameter(port)).toBeCloseTo(0.032, 12);
  });
  test("the seat's outside diameter counts where stated, else the valve's", () => {
    const head = describedPort({ valve: 40, stem: 7, throat: 36, seatWidth: 1.5 });
    const seat = { ...head.seat!, outside: millimetres(39.4) };
    const smaller = portMinimumArea({ ...head, seat }, metres(0.005))!.area;
    const expected = minimumFlowArea(
      {
        outside: millimetres(39.4),
        faceWidth: millimetres(1.5),
        angle: degrees(45),
        throat: millimetres(36),
        stem: millimetres(7),
      },
      metres(0.005),
    ).area;
    expect(smaller).toBeCloseTo(expected, 12);
    expect(portMinimumArea(head, metres(0.005))!.area).toBeGreaterThan(smaller);
  });
  test("nothing is made from a throat that was not measured again after work", () => {
    expect(
      portMinimumArea(
        { ...describedPort({ valve: 40, stem: 7, throat: 36, seatWidth: 1.5 }), stale: ["throat"] },
        metres(0.005),
      ),
    ).toBeUndefined();
  });
});

describe("curtain coefficient at a lift ÷ diameter", () => {
  const reading = (lift_m: number, flow_m3_s: number, more = {}) => ({ lift_m, flow_m3_s, repeats: 1, ...more });
  const side = (readings: ReturnType<typeof reading>[]) => ({ valves: 2, valve_diameter_m: 0.032, readings });

  // By hand: 2 valves of 32 mm at 8 mm have a curtain of 2 π 0.032 × 0.008 = 1.608495e-3 m²; at 100 m/s it passes 0.1608495 m³/s.
  test("worked value at a reading", () => {
    expect(curtainCoefficientAt(side([reading(0.004, 0.06), reading(0.008, 0.1)]), 0.25, 100)).toBeCloseTo(0.621699, 6);
  });

  test("absent where the readings do not reach it, however near", () => {
    expect(curtainCoefficientAt(side([reading(0.004, 0.06), reading(0.0079, 0.1)]), 0.25, 100)).toBeUndefined();
    expect(curtainCoefficientAt(side([]), 0.25, 100)).toBeUndefined();
  });

  test("a doubtful reading takes no part, nor reaches any further", () => {
    const readings = [reading(0.004, 0.06), reading(0.008, 0.1, { doubtful: true as const })];
    expect(curtainCoefficientAt(side(readings), 0.25, 100)).toBeUndefined();
  });

  test("between readings it is the project's curve: on a straight line, the line", () => {
    const readings = [reading(0.004, 0.05), reading(0.012, 0.15)];
    expect(curtainCoefficientAt(side(readings), 0.25, 100)).toBeCloseTo(0.1 / 0.1608495, 6);
  });
});
