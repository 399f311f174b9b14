import { expect, test } from "vitest";
import { curtainCoefficientAt } from "../../src/figures/side/curtain-coefficient-at.ts";

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
