import { type Metres, metres } from "../../units/quantity.ts";
import { SAME_LIFT, sameLift } from "../../units/same-lift.ts";

/** Lifts between which a mean is taken. */
export type LiftRange = { readonly from: Metres; readonly to: Metres };

/**
 * Different lifts among many, ascending.
 *
 *     each lift once
 *
 * @param lifts  lifts [m], any order, duplicates allowed
 * @returns      ascending, none the same as its neighbour
 * @example      distinctLifts([0.002, 0.001, 0.002]) // [0.001, 0.002]
 */
export function distinctLifts<Lift extends number>(lifts: readonly Lift[]): Lift[] {
  // Most lists are already ascending, so the sort is skipped.
  const sorted = lifts.every((lift, k) => k === 0 || lift >= lifts[k - 1]!);
  const ascending = sorted ? lifts : [...lifts].sort((a, b) => a - b);
  return ascending.filter((lift, k) => k === 0 || !sameLift(lift, ascending[k - 1]!));
}

/**
 * Lifts that every one of several lists has.
 *
 *     ∩ of the lists
 *
 * @param lists  lists of lifts [m]
 * @returns      ascending, as the first list has them; empty for no lists
 * @example      sharedLifts([[0.001, 0.002, 0.003], [0.002, 0.003, 0.004]]) // [0.002, 0.003]
 */
export function sharedLifts<Lift extends number>(lists: readonly (readonly Lift[])[]): Lift[] {
  const [first = [], ...others] = lists;
  return distinctLifts(first).filter((lift) => others.every((list) => list.some((other) => sameLift(other, lift))));
}

/**
 * Range over which several sweeps are averaged: from the lowest to the highest lift that all have read, and no further than
 * the cam lifts the valve. Where fewer than two lifts are shared (millimetres against inches), the range that all cover.
 *
 *     [min, min(max, net lift)] of the shared lifts
 *
 * @param lists    lifts of each sweep [m], ascending
 * @param netLift  net lift of the cam on that side [m], if known
 * @returns        the range [m], or undefined where there is none
 * @source         common practice: a mean over a range that one sweep did not reach compares nothing
 * @example        sharedRange([[0.001, 0.002, 0.003], [0.001, 0.002]], undefined) // { from: 0.001, to: 0.002 }
 */
export function sharedRange(lists: readonly (readonly Metres[])[], netLift: Metres | undefined): LiftRange | undefined {
  if (lists.length === 0 || lists.some((list) => list.length === 0)) return undefined;
  const shared = sharedLifts(lists);
  const from = shared.length > 1 ? shared[0]! : metres(Math.max(...lists.map((list) => list[0]!)));
  const reach =
    shared.length > 1 ? shared[shared.length - 1]! : metres(Math.min(...lists.map((list) => list[list.length - 1]!)));
  const to = metres(Math.min(reach, netLift ?? reach));
  return to - from > SAME_LIFT ? { from, to } : undefined;
}
