import type { ReadingFigures } from "../figures.ts";
import { exceeds } from "../math/limits.ts";
import { readingName, readingPlace, type SideRule } from "./check-input.ts";

const LIMIT = 0.06;

type CoefficientPoint = { readonly lift: number; readonly coefficient: number; readonly reading: ReadingFigures };

/**
 * A lasting step in the curtain coefficient: two readings on each side, each pair's line missing both of the other pair by
 * more than 0.06 in the same direction. A bend misses in opposite directions, and a single bad reading only once.
 * @source common practice
 */
export const lastingStep: SideRule = (input) => {
  const spots = input.readings.flatMap((reading): CoefficientPoint[] =>
    reading.partial || reading.curtain_coefficient === undefined
      ? []
      : [{ lift: reading.lift_m, coefficient: reading.curtain_coefficient, reading }],
  );
  return spots.slice(3).flatMap((d, k) => {
    const [a, b, c] = [spots[k]!, spots[k + 1]!, spots[k + 2]!];
    const steps = [
      deviationFromLine(a, b, c),
      deviationFromLine(a, b, d),
      -deviationFromLine(c, d, b),
      -deviationFromLine(c, d, a),
    ];
    const step = Math.min(...steps.map(Math.abs));
    const oneWay = steps.every((miss) => miss > 0) || steps.every((miss) => miss < 0);
    if (!oneWay || !exceeds(step, LIMIT)) return [];
    return [
      {
        code: "figures/lasting-step" as const,
        message: `${readingName(input, c.lift, c.reading.flow_m3_s)} begins a step of ${input.format.ratio(step)} in the curtain coefficient that lasts`,
        hint: `a wrong range or another scale from here ${steps[0]! > 0 ? "up" : "down"}`,
        ...readingPlace(input, c.lift),
      },
    ];
  });
};

/** How far a spot lies above the line through two others. */
function deviationFromLine(one: CoefficientPoint, two: CoefficientPoint, spot: CoefficientPoint): number {
  const slope = (two.coefficient - one.coefficient) / (two.lift - one.lift);
  return spot.coefficient - one.coefficient - slope * (spot.lift - one.lift);
}
