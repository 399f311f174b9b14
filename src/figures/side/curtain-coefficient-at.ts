import { cubicMetresPerSecond, metres } from "../../units/quantity.ts";
import { SAME_LIFT } from "../../units/same-lift.ts";
import type { ReadingFigures, SideFigures } from "../figures.ts";
import { curveAt, flowCurve } from "../math/pchip.ts";

/**
 * Coefficient on the curtain at a given lift ÷ diameter, so that heads with valves of different sizes can be compared.
 *
 *     C = Q(k D) ÷ (n π D · k D · ideal flow per area)
 *
 * Q is the interpolant through the good readings; with D the mean diameter, n π D is the whole rim of unlike valves too.
 *
 * @param side   figures of one side of a stage: valves n, mean valve diameter D [m], readings
 * @param k      lift ÷ diameter, greater than 0
 * @param ideal  ideal flow per area on that side [m/s], greater than 0
 * @returns      C; undefined without a valve diameter, or where the readings do not reach k D: nothing is extrapolated
 * @source       Heywood, Internal Combustion Engine Fundamentals (1988), §6.3.2; Fritsch & Butland (1984) between readings
 * @example      curtainCoefficientAt({ valves: 1, valve_diameter_m: 0.04, readings: [{ lift_m: 0.01, flow_m3_s: 0.09 }] }, 0.25, 100) // 0.71620
 */
export function curtainCoefficientAt(
  side: Pick<SideFigures, "valves" | "valve_diameter_m"> & {
    readonly readings: readonly Pick<ReadingFigures, "lift_m" | "flow_m3_s" | "doubtful" | "partial">[];
  },
  k: number,
  ideal: number,
): number | undefined {
  const { valves, valve_diameter_m: diameter } = side;
  const good = side.readings.filter((reading) => !reading.doubtful && !reading.partial && reading.lift_m > SAME_LIFT);
  if (diameter === undefined || good.length === 0) return undefined;
  const curve = flowCurve(
    good.map((reading) => metres(reading.lift_m)),
    good.map((reading) => cubicMetresPerSecond(reading.flow_m3_s)),
  );
  const flow = curveAt(curve, metres(k * diameter));
  return flow === undefined ? undefined : flow / (valves * Math.PI * diameter * k * diameter * ideal);
}
