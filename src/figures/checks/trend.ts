import type { Metres } from "../../units/quantity.ts";
import { sameLift } from "../../units/same-lift.ts";
import { NO_FLOW } from "../constants.ts";
import { distinctLifts } from "../math/lifts.ts";
import { curveAt, pchipSlopes } from "../math/pchip.ts";
import { isGood, type Point } from "../sweep/point.ts";

/** Share of the last neighbour's flow below which no port falls at the next lift: common practice. */
const LEAST_AT_TOP = 0.8;

/** The good readings of one port at one lift. */
export type Spot = { readonly lift: number; readonly points: readonly Point[]; readonly flow: number };

/** Neighbours on either side that a monotone cubic through a spot depends on. */
const REACH = 3;

/**
 * The good readings of one port by lift.
 *
 *     one spot a lift, with the mean of its readings
 *
 * @param points  readings of one port
 * @returns       spots with some flow, ascending
 * @example       spotsOf([]) // []
 */
export function spotsOf(points: readonly Point[]): readonly Spot[] {
  const good = points.filter((point) => isGood(point) && point.flow > NO_FLOW);
  return distinctLifts(good.map(({ lift }) => lift))
    .filter((lift) => lift > 0)
    .map((lift) =>
      spot(
        lift,
        good.filter((point) => sameLift(point.lift, lift)),
      ),
    );
}

const spot = (lift: number, points: readonly Point[]): Spot => ({
  lift,
  points,
  flow: points.reduce((sum, { flow }) => sum + flow, 0) / points.length,
});

/**
 * The spots without one reading; without its lift where it stands alone there.
 *
 *     spots less a reading
 *
 * @param spots  readings by lift
 * @param point  the one to leave out
 * @returns      the others
 * @example      withoutPoint([], { lift: 1 }) // []
 */
export const withoutPoint = (spots: readonly Spot[], point: Point): readonly Spot[] =>
  spots.flatMap((one) => {
    if (!one.points.includes(point)) return [one];
    const left = one.points.filter((other) => other !== point);
    return left.length === 0 ? [] : [spot(one.lift, left)];
  });

/**
 * The flow that the neighbours of a lift lead to expect. Flow ÷ lift is smoother than flow, so the curve is taken in it; beyond
 * either end it is level below the first neighbour and straight on above the last, where no port loses more than a fifth.
 *
 *     Q(L) = L · (Q ÷ L)(L)
 *
 * @param spots  readings by lift; the one at the lift itself is left out
 * @param lift   L [m]
 * @returns      Q [m³/s]; undefined where there are fewer than two neighbours or no flow is left
 * @source       common practice
 * @example      trendAt([{ lift: 1, flow: 10 }, { lift: 3, flow: 30 }], 2) // 20
 */
export function trendAt(spots: readonly Spot[], lift: number): number | undefined {
  const others = spots.filter((one) => !sameLift(one.lift, lift));
  if (others.length < 2) return undefined;
  const above = others.findIndex((one) => one.lift > lift);
  const at = above < 0 ? others.length : above;
  const near = others.slice(Math.max(0, at - REACH), at + REACH);
  const x = near.map((one) => one.lift) as Metres[];
  const y = near.map((one) => one.flow / one.lift);
  const inside = at > 0 && at < others.length;
  const perLift = inside ? curveAt({ x, y, d: pchipSlopes(x, y) }, lift as Metres) : extrapolate(x, y, lift);
  if (perLift === undefined) return undefined;
  const flow = at === others.length ? Math.max(perLift * lift, LEAST_AT_TOP * others.at(-1)!.flow) : perLift * lift;
  return flow > NO_FLOW ? flow : undefined;
}

function extrapolate(x: readonly number[], y: readonly number[], at: number): number {
  if (at < x[0]!) return y[0]!;
  const last = x.length - 1;
  return y[last]! + ((y[last]! - y[last - 1]!) / (x[last]! - x[last - 1]!)) * (at - x[last]!);
}
