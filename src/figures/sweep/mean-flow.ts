import { type CubicMetresPerSecond, cubicMetresPerSecond, type Metres } from "../../units/quantity.ts";
import { type Curve, integralTo } from "../math/pchip.ts";

/**
 * Mean of a curve over a range of lift: the area under it ÷ the range.
 *
 *     Q̄ = ∫ Q dL ÷ (L₂ − L₁)
 *
 * @param curve  flow against lift [m³/s, m]
 * @param from   lower lift L₁ [m], within the curve
 * @param to     upper lift L₂ [m], within the curve
 * @returns      Q̄ [m³/s], or undefined where the range is empty or reaches beyond the readings
 * @source       mean value of a function; exact for the piecewise cubic
 * @example      meanFlow({ x: [0, 2], y: [0, 2], d: [1, 1] }, 1, 2) // 1.5
 */
export function meanFlow(curve: Curve, from: Metres, to: Metres): CubicMetresPerSecond | undefined {
  const first = curve.x[0]!;
  const last = curve.x[curve.x.length - 1]!;
  if (!(from >= first && to <= last && to > from)) return undefined;
  return cubicMetresPerSecond((integralTo(curve, to) - integralTo(curve, from)) / (to - from));
}
