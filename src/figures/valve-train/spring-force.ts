import type { Springs } from "../../model/model.ts";
import { type Newtons, type NewtonsPerMetre, newtons, newtonsPerMetre } from "../../units/quantity.ts";

/**
 * Force of a linear spring away from the length at which its force is known.
 *
 *     F = F₀ + k x
 *
 * @param known        F₀, force at the known length [N]
 * @param rate         k, spring rate [N/m]
 * @param compression  x, how much shorter than at F₀ the spring is [m]; negative where it is longer
 * @returns            F [N]; below zero the spring would be loose
 * @source             Hooke's law; Shigley's Mechanical Engineering Design, helical springs, F = k y (from memory)
 * @example            springForce(400, 40000, 0.01) // 800
 */
export const springForce = (known: number, rate: number, compression: number): Newtons =>
  newtons(known + rate * compression);

/**
 * The rate of a spring: as stated, else from its two forces.
 *
 *     k = (F_open − F_seat) ÷ lift
 *
 * @param springs  seat force and open force [N], lift of the open force [m], stated rate [N/m]
 * @returns        the rate [N/m] and where it is from; undefined where neither is stated
 * @source         Hooke's law
 * @example        springRate({ seatForce: 400, openForce: 800, openAt: 0.01 }) // { rate: 40000, from: "forces" }
 */
export function springRate(
  springs: Springs,
): { readonly rate: NewtonsPerMetre; readonly from: "stated" | "forces" } | undefined {
  const { rate, seatForce, openForce, openAt } = springs;
  if (rate !== undefined) return { rate, from: "stated" };
  if (seatForce === undefined || openForce === undefined || openAt === undefined) return undefined;
  return { rate: newtonsPerMetre((openForce - seatForce) / openAt), from: "forces" };
}
