import { metres } from "../../units/quantity.ts";
import { sameLift } from "../../units/same-lift.ts";
import { type Curve, curveAt } from "../math/pchip.ts";

const STEPS = 60;

/**
 * The interpolant sampled for drawing, from the first to the last reading, every reading among the points.
 *
 *     [L, Q(L)] at 60 equal steps and at the knots
 *
 * @param curve  flow against lift [m³/s, m]; its first knot is the shut valve, which is not drawn
 * @returns      pairs [m, m³/s], lifts ascending; a single pair for a single reading
 * @source       Fritsch & Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300–304
 * @example      curvePoints({ x: [0, 0.01], y: [0, 0.05], d: [5, 5] }) // [[0.01, 0.05]]
 */
export function curvePoints(curve: Curve): [number, number][] {
  const knots = curve.x.slice(1);
  const first = knots[0]!;
  const last = knots[knots.length - 1]!;
  const grid = Array.from({ length: STEPS - 1 }, (_, k) => metres(first + ((last - first) * (k + 1)) / STEPS));
  // A step within rounding of a reading is dropped in favour of the reading.
  const between = grid.filter((lift) => !knots.some((knot) => sameLift(knot, lift)));
  return [...knots, ...between].sort((a, b) => a - b).map((lift) => [lift, curveAt(curve, lift)!]);
}
