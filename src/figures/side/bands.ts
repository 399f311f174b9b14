import { type Metres, metres } from "../../units/quantity.ts";
import { LIFT_BANDS } from "../constants.ts";
import type { BandFigures, SideFigures } from "../figures.ts";
import type { Curve } from "../math/pchip.ts";
import { meanFlow } from "../math/pchip.ts";

/**
 * Mean flow at low, mid and high lift: below 0.12, 0.12 to 0.22 and above 0.22 lift ÷ diameter, as far as was read.
 *
 *     Q̄ over [first, 0.12 D], [0.12 D, 0.22 D], [0.22 D, last]
 *
 * @param curve     flow against lift [m³/s, m], from the shut valve to the last reading
 * @param diameter  valve diameter D [m], greater than 0
 * @returns         the bands; one that the readings do not reach is absent
 * @source          common practice
 * @example         flowBands({ x: [0, 0.003, 0.006], y: [0, 0.03, 0.06], d: [10, 10, 10] }, 0.05) // { low: { from_lift_m: 0.003, to_lift_m: 0.006, flow_m3_s: 0.045 } }
 */
export function flowBands(curve: Curve, diameter: Metres): SideFigures["bands"] {
  const first = curve.x[1]!;
  const last = curve.x[curve.x.length - 1]!;
  const band = (from: Metres, to: Metres): BandFigures | undefined => {
    const low = metres(Math.max(first, from));
    const high = metres(Math.min(last, to));
    const flow = meanFlow(curve, low, high);
    return flow === undefined ? undefined : { from_lift_m: low, to_lift_m: high, flow_m3_s: flow };
  };
  const [lower, upper] = [metres(LIFT_BANDS.low * diameter), metres(LIFT_BANDS.high * diameter)];
  const low = band(first, lower);
  const mid = band(lower, upper);
  const high = band(upper, last);
  return { ...(low && { low }), ...(mid && { mid }), ...(high && { high }) };
}
