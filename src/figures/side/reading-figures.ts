import type { Port, Side } from "../../model/model.ts";
import type { CubicMetresPerSecond, Metres } from "../../units/quantity.ts";
import type { ReadingFigures } from "../figures.ts";
import { portCurtainArea, portMinimumArea, usablePinch, valveArea, valveDiameter } from "../geometry/port-geometry.ts";
import { combine, uncertaintyFigures } from "../math/uncertainty.ts";
import { cylinderOfPort } from "../sweep/point.ts";
import type { MeanReading } from "../sweep/sweep.ts";

/** Ideal flow per area of each side at the reference [m/s]. */
export type IdealFlow = Readonly<Record<Side, number>>;

/**
 * Figures of one mean reading: flow with its ±, and the coefficients on curtain, minimum area and valve.
 *
 *     C = (ρ_ref Q) ÷ (A · isentropic flux) = Q ÷ (A · ideal flow per area)
 *
 * A doubtful reading, and one that a cylinder of the curve lacks, is listed and marked, the doubtful one without coefficients.
 *
 * @param reading  the mean reading [m, m³/s]
 * @param port     the port's dimensions, if stated
 * @param ideal    ideal flow per area on this side [m/s], greater than 0
 * @returns        the figures; without a coefficient whose area is unknown or 0
 * @source         Heywood, Internal Combustion Engine Fundamentals (1988), §6.3.2 and app. C
 * @example        readingFigures({ lift: 0.01, flow: 0.09, ports: ["1"], repeats: 1 }, { valves: [{ head: 0.04 }], stale: [] }, 100).curtain_coefficient // 0.71620
 */
export function readingFigures(reading: MeanReading, port: Port | undefined, ideal: number): ReadingFigures {
  const { lift, flow, repeats, mounts, ports, terms, convertedFrom } = reading;
  const diameter = port === undefined ? undefined : valveDiameter(port);
  return {
    lift_m: lift,
    flow_m3_s: flow,
    ...(diameter === undefined ? {} : { lift_to_diameter: lift / diameter }),
    repeats,
    mounts,
    of_cylinders: [...new Set(ports.map(cylinderOfPort))],
    ...(reading.partial ? { partial: true as const } : {}),
    ...uncertaintyFigures(terms && combine(terms)),
    ...(reading.doubtful ? { doubtful: true as const } : {}),
    ...(reading.noisy ? { noisy: true as const } : {}),
    ...(convertedFrom === undefined ? {} : { converted_from_Pa: convertedFrom }),
    ...(port === undefined || reading.doubtful || !(lift > 0) ? {} : coefficients(lift, flow, port, ideal)),
  };
}

function coefficients(lift: Metres, flow: CubicMetresPerSecond, port: Port, ideal: number): Partial<ReadingFigures> {
  const curtain = portCurtainArea(port, lift);
  const minimum = portMinimumArea(port, lift);
  const valve = valveArea(port);
  const pinch = usablePinch(port);
  return {
    ...(curtain === undefined ? {} : { curtain_area_m2: curtain, curtain_coefficient: flow / (curtain * ideal) }),
    ...(minimum === undefined || !(minimum.area > 0)
      ? {}
      : {
          minimum_area_m2: minimum.area,
          minimum_area_stage: minimum.stage,
          discharge_coefficient: flow / (minimum.area * ideal),
        }),
    ...(valve === undefined ? {} : { valve_coefficient: flow / (valve * ideal) }),
    ...(pinch === undefined ? {} : { pinch_velocity_m_s: flow / pinch }),
  };
}
