import type { Cam } from "../../model/model.ts";
import { type Radians, type Ratio, radians, ratio } from "../../units/quantity.ts";
import { raisedCosineDuration } from "../math/raised-cosine.ts";

/**
 * The part of a measured profile in which the valve is open, from the last point of lift 0 before to the first after it.
 *
 *     from the first to the last point that is open or beside an open one
 *
 * @param profile  crank angle [rad] against valve lift [m], ascending
 * @returns        its points; none where the valve stays shut
 * @source         common practice
 * @example        openProfile([{ angle: 0, lift: 0 }, { angle: 1, lift: 0 }, { angle: 2, lift: 0.01 }, { angle: 3, lift: 0 }]).length // 3
 */
export function openProfile(profile: NonNullable<Cam["profile"]>): NonNullable<Cam["profile"]> {
  const first = profile.findIndex((point, k) => point.lift > 0 || (profile[k + 1]?.lift ?? 0) > 0);
  const last = profile.findLastIndex((point, k) => point.lift > 0 || (profile[k - 1]?.lift ?? 0) > 0);
  return first < 0 ? [] : profile.slice(first, last + 1);
}

/**
 * Period over which a cam holds the valve open, from lift 0 to lift 0: of a measured profile, else of a raised cosine that
 * has the stated duration at the check lift.
 *
 *     θ_closed − θ_open, or D = π d ÷ (2 arccos √(at ÷ L_max))
 *
 * @param cam  net lift [m], with duration [rad] and check lift [m], or a profile of crank angle [rad] against lift [m]
 * @returns    the period [rad]; undefined where it is not known
 * @source     common practice
 * @example    camOpenPeriod({ netLift: metres(0.01), duration: radians(4), at: metres(0.005) }) // 8
 */
export function camOpenPeriod({ profile = [], netLift, duration, at }: Cam): Radians | undefined {
  if (profile.length > 1) {
    const open = openProfile(profile);
    const period = open.length < 2 ? 0 : open.at(-1)!.angle - open[0]!.angle;
    return period > 0 ? radians(period) : undefined;
  }
  if (duration === undefined || at === undefined || !(at < netLift)) return undefined;
  return raisedCosineDuration(duration, at, netLift);
}

/**
 * Mean inlet Mach number: the inlet Mach index spread over the period in which the valve is open, in place of half a turn,
 * so that a longer cam has a lower one. The volumetric efficiency is left out: it is not known.
 *
 *     M = Z · π ÷ φ
 *
 * @param index       inlet Mach index Z [1], 0 or greater
 * @param openPeriod  φ [rad], greater than 0
 * @returns           M [1]; 0 at rest, Z for a valve open for half a turn
 * @source            form of Fukutani & Watanabe, SAE 790484 (1979), and Taylor, The Internal-Combustion Engine in Theory and Practice, vol. 1, ch. 6 (both from memory)
 * @example           meanInletMach(ratio(0.5), radians(5)) // 0.314159
 */
export function meanInletMach(index: Ratio, openPeriod: Radians): Ratio {
  return ratio((index * Math.PI) / openPeriod);
}
