import { type Metres, metres, type Radians, radians } from "../../units/quantity.ts";

/**
 * Full duration of a raised-cosine lift, from the duration at a check lift.
 *
 *     L(φ) = L_max cos²(π φ ÷ D), φ from the middle;  L(d ÷ 2) = at  ⇒  D = π d ÷ (2 arccos √(at ÷ L_max))
 *
 * @param duration  crank angle d over which lift is at least `at` [rad], greater than 0
 * @param at        check lift [m], 0 to less than L_max
 * @param netLift   highest lift L_max [m], greater than 0
 * @returns         D [rad]; d itself for a check lift of 0
 * @source          elementary trigonometry; the sin² shape is common practice where only lift and duration are known
 * @example         raisedCosineDuration(radians(4), metres(0.005), metres(0.010)) // 8
 */
export function raisedCosineDuration(duration: Radians, at: Metres, netLift: Metres): Radians {
  return radians((Math.PI * duration) / (2 * Math.acos(Math.sqrt(at / netLift))));
}

/**
 * Lift of a raised cosine (sin²) at a share of its open period.
 *
 *     L = L_max sin²(π s)
 *
 * @param netLift  highest lift L_max [m], 0 or greater
 * @param share    share s of the open period gone by [1], 0 to 1
 * @returns        L [m]; 0 at both ends
 * @source         common practice where only lift and duration are known
 * @example        raisedCosineLift(metres(0.010), 0.25) // 0.005
 */
export function raisedCosineLift(netLift: Metres, share: number): Metres {
  return metres(netLift * Math.sin(Math.PI * share) ** 2);
}
