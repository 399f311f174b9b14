import type { Metres } from "../../units/quantity.ts";
import { LIFT_BANDS } from "../constants.ts";
import { CONFIDENCE } from "../math/student-t.ts";
import { combineInputs, expandedAt, type Term } from "../math/uncertainty.ts";
import type { FlowChange } from "./flow-change.ts";

/** Whether a change [m³/s] is beyond a ± and beyond the floor, a share of the flow before. */
export type IsBeyond = (change: number, uncertainty: number, before: number) => boolean;

/**
 * Level of confidence of each of several claims that share one chance of being wrong.
 *
 *     p_n = 1 − (1 − p) ÷ n
 *
 * @param n  how many claims, 1 or more
 * @returns  p_n [1]
 * @source   Bonferroni's inequality; Dunn, J. Am. Stat. Assoc. 56 (1961) 52–64 (from memory)
 * @example  sharedLevel(3) // 0.98483
 */
export function sharedLevel(n: number): number {
  return 1 - (1 - CONFIDENCE) / n;
}

/**
 * Whether the summed flow of the lifts of any band has clearly changed: low, mid or high lift ÷ diameter.
 *
 *     |Σ (Q_after − Q_before)| > U at the level that the bands share
 *
 * @param measured  changes at lifts that both sweeps measured, ascending
 * @param diameter  D of the later stage's valve [m], if known
 * @param isBeyond  the rule of what is beyond a ±
 * @returns         true where one has; false without a diameter
 * @source          JCGM 100:2008 (GUM), 5.2; bands are common practice
 * @example         bandHasChanged([], 0.044, () => true) // false
 */
export function bandHasChanged(
  measured: readonly FlowChange[],
  diameter: Metres | undefined,
  isBeyond: IsBeyond,
): boolean {
  if (diameter === undefined) return false;
  const bandOf = ({ before: { lift } }: FlowChange) =>
    lift < LIFT_BANDS.low * diameter ? "low" : lift > LIFT_BANDS.high * diameter ? "high" : "mid";
  const bands = (["low", "mid", "high"] as const)
    .map((name) => measured.filter((one) => bandOf(one) === name))
    .filter((band) => band.length > 0);
  const level = sharedLevel(bands.length);
  return bands.some((band) => {
    if (band.some(({ combined }) => combined === undefined)) return false;
    const budgets = band.flatMap(({ before, after }): (readonly Term[])[] => [after.terms!, before.terms!]);
    const combined = combineInputs(
      budgets,
      budgets.map((_, k) => (k % 2 === 0 ? 1 : -1)),
    );
    const sum = (of: (one: FlowChange) => number) => band.reduce((whole, one) => whole + of(one), 0);
    return isBeyond(
      sum(({ change }) => change),
      expandedAt(combined, level),
      sum(({ before }) => before.flow),
    );
  });
}

/**
 * Direction in which each measured lift is claimed to have changed. None is where neither the mean nor a band nor a single
 * lift at its own level has; then a lift is with a neighbour that changed the same way, or alone at that level.
 *
 *     beyond its ± with a neighbour, or beyond t(1 − 0.0455 ÷ m) u
 *
 * @param measured          changes at the m lifts that both sweeps measured, ascending
 * @param hasOverallChange  whether mean or band has changed
 * @param isBeyond          the rule of what is beyond a ±
 * @returns                 1, −1 or 0 for none, one a lift
 * @source                  Dunn, J. Am. Stat. Assoc. 56 (1961) 52–64 (from memory); the neighbour is our own rule, tests simulate it
 * @example                 liftClaims([{ before: { flow: 1 }, change: 3, combined: { u: 1, dof: Infinity, expanded: 2, parts: {} } }], false, (change, u) => Math.abs(change) > u) // [1]
 */
export function liftClaims(measured: readonly FlowChange[], hasOverallChange: boolean, isBeyond: IsBeyond): number[] {
  const signAt = (level: number) =>
    measured.map(({ change, combined, before }) =>
      combined !== undefined && isBeyond(change, expandedAt(combined, level), before.flow) ? Math.sign(change) : 0,
    );
  const alone = signAt(sharedLevel(measured.length));
  if (!hasOverallChange && alone.every((sign) => sign === 0)) return measured.map(() => 0);
  const usual = signAt(CONFIDENCE);
  return usual.map((sign, k) => (alone[k] !== 0 || usual[k - 1] === sign || usual[k + 1] === sign ? sign : 0));
}
