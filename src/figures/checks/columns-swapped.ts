import type { Stage } from "../../model/model.ts";
import { sameLift } from "../../units/same-lift.ts";
import { valveArea } from "../geometry/port-geometry.ts";
import { exceeds } from "../math/limits.ts";
import { pairedReadings } from "../side/exhaust-to-intake.ts";
import type { Sweep } from "../sweep/sweep.ts";

/** Limits of crossed ÷ straight distance: with the exhaust's valves stated as smaller, and without [1]. */
const NEARER = 0.9;
const FAR_NEARER = 0.5;

/** A stage with what was flowed of it on each side. */
export type FlowedSides = {
  readonly stage: Pick<Stage, "ports">;
  readonly intake?: Pick<Sweep, "good">;
  readonly exhaust?: Pick<Sweep, "good">;
};

/**
 * Whether the valves of the exhaust are the smaller ones.
 *
 *     A_intake > A_exhaust
 *
 * @param ports  the two ports of a stage
 * @returns      true where both are stated and so; false where one is not
 * @example      exhaustIsSmaller({ intake: { valves: [{ head: 0.04 }] }, exhaust: { valves: [{ head: 0.03 }] } }) // true
 */
export function exhaustIsSmaller({ intake, exhaust }: Stage["ports"]): boolean {
  const [into, out] = [intake && valveArea(intake), exhaust && valveArea(exhaust)];
  return into !== undefined && out !== undefined && exceeds(into * 1e6, out * 1e6);
}

/**
 * Whether two stages, or two heads, read as if one of them had swapped columns: in one the exhaust flows more than the
 * intake at most lifts and in the other less, and each column lies nearer to the other stage's other column than to its own.
 *
 *     straight = Σ |ln (I_b ÷ I_a)| + |ln (E_b ÷ E_a)|;  crossed = Σ |ln (I_b ÷ E_a)| + |ln (E_b ÷ I_a)|
 *     swapped ⇔ crossed < 0.9 · straight where the exhaust's valves are stated and smaller, else crossed < 0.5 · straight
 *
 * @param from  a stage
 * @param to    the one it is compared with
 * @returns     true where it looks so; false with fewer than two lifts that all four columns share
 * @source      common practice: work that raises both sides makes the two sums equal, however far the exhaust passes the intake
 * @example     columnsSwapped({ stage: {} }, { stage: {} }) // false
 */
export function columnsSwapped(from: FlowedSides, to: FlowedSides): boolean {
  const after = flowsOf(to);
  const shared = flowsOf(from).flatMap((a) => {
    const b = after.find(({ lift }) => sameLift(lift, a.lift));
    return b === undefined ? [] : [{ a, b }];
  });
  const turned = shared.filter(({ a, b }) => a.out > a.into && b.out < b.into).length;
  const turnedBack = shared.filter(({ a, b }) => b.out > b.into && a.out < a.into).length;
  if (shared.length < 2 || !(Math.max(turned, turnedBack) > shared.length / 2)) return false;
  const logDistance = (a: number, b: number) => Math.abs(Math.log(b / a));
  const straight = shared.reduce((sum, { a, b }) => sum + (logDistance(a.into, b.into) + logDistance(a.out, b.out)), 0);
  const crossed = shared.reduce((sum, { a, b }) => sum + (logDistance(a.out, b.into) + logDistance(a.into, b.out)), 0);
  const witness = exhaustIsSmaller(from.stage.ports) || exhaustIsSmaller(to.stage.ports);
  return crossed < straight * (witness ? NEARER : FAR_NEARER);
}

const flowsOf = ({ intake, exhaust }: FlowedSides) =>
  pairedReadings(intake, exhaust)
    .filter(({ out }) => out.flow > 0)
    .map(({ into, out }) => ({ lift: into.lift, into: into.flow, out: out.flow }));
