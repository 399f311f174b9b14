import type { Cam } from "../../model/model.ts";
import { type CubicMetresPerSecond, cubicMetresPerSecond, type Metres, metres } from "../../units/quantity.ts";
import { type Curve, curveAt } from "../math/pchip.ts";
import { raisedCosineLift } from "../math/raised-cosine.ts";

const STEPS = 720;

/**
 * Mean flow over the period in which a cam holds the valve open: the arithmetic mean over crank angle of the flow at each
 * lift. A measured profile is followed as typed; with a net lift alone the lift is a raised cosine, whose mean does not
 * depend on the duration. Lift beyond the last reading takes the flow of the last reading.
 *
 *     Q̄ = ∫ Q(L(θ)) dθ ÷ (θ_closed − θ_open)
 *
 * @param curve  flow against lift [m³/s, m], from the shut valve to the last reading
 * @param cam    net lift [m], and a profile of crank angle [rad] against lift [m] when one was measured, ascending
 * @returns      Q̄ [m³/s], or undefined when a profile never opens the valve
 * @source       Taylor, The Internal-Combustion Engine in Theory and Practice, vol. 1, ch. 6 (mean inlet flow coefficient; from memory)
 * @example      camMeanFlow({ x: [0, 0.01], y: [0, 0.1], d: [10, 10] }, { netLift: 0.01 }) // 0.05
 */
export function camMeanFlow(curve: Curve, cam: Cam): CubicMetresPerSecond | undefined {
  const flowAt = (lift: Metres) => flowAtCamLift(curve, lift);
  const profile = cam.profile ?? [];
  if (profile.length < 2) {
    // A periodic, smooth function of the share: equal steps converge faster than any fixed order.
    let sum = 0;
    for (let k = 0; k < STEPS; k++) sum += flowAt(raisedCosineLift(cam.netLift, (k + 0.5) / STEPS));
    return cubicMetresPerSecond(sum / STEPS);
  }
  let area = 0;
  let open = 0;
  for (let k = 0; k + 1 < profile.length; k++) {
    const left = profile[k]!;
    const right = profile[k + 1]!;
    if (left.lift <= 0 && right.lift <= 0) continue;
    const width = right.angle - left.angle;
    open += width;
    area += (width * (flowAt(left.lift) + 4 * flowAt(metres((left.lift + right.lift) / 2)) + flowAt(right.lift))) / 6;
  }
  return open > 0 ? cubicMetresPerSecond(area / open) : undefined;
}

/**
 * Flow at a lift that a cam gives: that of the last reading where the cam lifts further.
 *
 *     Q(min(L, L_last))
 *
 * @param curve  flow against lift [m³/s, m], from the shut valve to the last reading
 * @param lift   L [m]; below 0 the valve is shut
 * @returns      Q [m³/s]; 0 for a shut valve
 * @source       common practice; a warning says so wherever it is done
 * @example      flowAtCamLift({ x: [0, 0.01], y: [0, 0.1], d: [10, 10] }, 0.02) // 0.1
 */
export function flowAtCamLift(curve: Curve, lift: Metres): CubicMetresPerSecond {
  return curveAt(curve, metres(Math.min(Math.max(lift, 0), curve.x[curve.x.length - 1]!)))!;
}
