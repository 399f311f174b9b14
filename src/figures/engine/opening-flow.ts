import type { Cam } from "../../model/model.ts";
import type { Curve } from "../math/pchip.ts";
import { raisedCosineLift } from "../math/raised-cosine.ts";
import { flowAtCamLift } from "./cam-mean-flow.ts";
import { camOpenPeriod, openProfile } from "./mean-inlet-mach.ts";

const STEPS = 72;

/**
 * Flow over the cam's open period, at the lift that the cam gives at each crank angle: a measured profile as typed, else a
 * raised cosine of the stated duration. Crank angle counts from the opening. Lift beyond the last reading takes the flow of
 * the last reading.
 *
 *     Q(L(θ)), θ from 0 to the full duration
 *
 * @param curve  flow against lift [m³/s, m], from the shut valve to the last reading
 * @param cam    net lift [m], with duration [rad] and check lift [m], or a profile of crank angle against lift
 * @returns      pairs [rad, m³/s], angles ascending; empty where the cam's lift against crank angle is not known
 * @source       common practice
 * @example      openingFlow({ x: [0, 0.01], y: [0, 0.1], d: [10, 10] }, { netLift: 0.01, duration: 4, at: 0.005 })[36] // [4, 0.1]
 */
export function openingFlow(curve: Curve, cam: Cam): [number, number][] {
  const { profile = [], netLift } = cam;
  if (profile.length > 1) {
    const open = openProfile(profile);
    return open.map(({ angle, lift }) => [angle - open[0]!.angle, flowAtCamLift(curve, lift)]);
  }
  const full = camOpenPeriod(cam);
  if (full === undefined) return [];
  return Array.from({ length: STEPS + 1 }, (_, k) => {
    const share = k / STEPS;
    return [full * share, flowAtCamLift(curve, raisedCosineLift(netLift, share))];
  });
}
