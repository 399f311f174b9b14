import { sameLift } from "../units/same-lift.ts";

/** Whether a lift is beyond another, such as that of the cam; not where either is unknown. */
export const isBeyondLift = (lift: number | undefined, limit: number | undefined): boolean =>
  lift !== undefined && limit !== undefined && lift > limit && !sameLift(lift, limit);

/** Every lift once, ascending. */
export function unionOfLifts(lists: readonly (readonly { readonly lift_m: number }[])[]): readonly number[] {
  const sorted = lists.flatMap((list) => list.map((item) => item.lift_m)).sort((a, b) => a - b);
  return sorted.filter((lift, i) => i === 0 || !sameLift(lift, sorted[i - 1] as number));
}

/** The entry at a lift. */
export const findAtLift = <T extends { readonly lift_m: number }>(list: readonly T[], lift: number): T | undefined =>
  list.find((item) => sameLift(item.lift_m, lift));
