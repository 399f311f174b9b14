import { NO_FLOW } from "../constants.ts";
import type { SideFigures } from "../figures.ts";
import type { LiftRange } from "../math/lifts.ts";
import { meanFlow } from "../math/pchip.ts";
import { narrowSweep, type Sweep } from "../sweep/sweep.ts";
import { peakReading } from "./curve-shape.ts";

/**
 * Peak and mean flow of each port measured, over one range for all.
 *
 *     Q̄_k over [L₁, L₂]
 *
 * @param sweep  the set's sweep over all ports
 * @param range  range of the means [m], if there is one; without it the plain mean of the port's readings
 * @returns      one entry a port, in order of cylinder and hand; empty where nothing good was read
 * @source       common practice
 * @example      cylinderFigures({ ports: [] }, undefined) // []
 */
export function cylinderFigures(sweep: Sweep, range: LiftRange | undefined): SideFigures["cylinders"] {
  return sweep.ports.flatMap((port) => {
    const own = narrowSweep(sweep, [port]);
    const peak = peakReading(own.good);
    const run = own.points[0]?.run;
    if (peak === undefined || run === undefined || own.curve === undefined) return [];
    const over = range === undefined ? undefined : meanFlow(own.curve, range.from, range.to);
    const mean = over ?? own.good.reduce((sum, reading) => sum + reading.flow, 0) / own.good.length;
    return [
      {
        cylinder: run.cylinder,
        ...(run.hand === undefined ? {} : { hand: run.hand }),
        peak_flow_m3_s: peak.flow,
        mean_flow_m3_s: mean,
      },
    ];
  });
}

/**
 * Spread from port to port.
 *
 *     (highest − lowest) ÷ mean of the ports' mean flows
 *
 * @param means  mean flow of each port [m³/s]
 * @returns      spread [1]; undefined for fewer than two ports or no flow
 * @source       common practice
 * @example      portSpread([0.09, 0.1, 0.11]) // 0.2
 */
export function portSpread(means: readonly number[]): number | undefined {
  const mean = means.reduce((sum, value) => sum + value, 0) / means.length;
  return means.length > 1 && mean > NO_FLOW ? (Math.max(...means) - Math.min(...means)) / mean : undefined;
}
