import type { Bench } from "../../model/model.ts";

/** Beyond this a check plate warns [1]; beyond the second no verdict is given. */
export const CHECK_PLATE_WARNS = 0.01;
/** Beyond this the bench is not trusted to tell two sweeps apart [1]. */
export const CHECK_PLATE_WITHHOLDS = 0.02;

/**
 * How far a check plate of known flow read off, before or after the work, whichever is worse.
 *
 *     e = max |reading ÷ nominal − 1|
 *
 * @param bench  the bench with its check plate, if one was flowed
 * @returns      e [1]; 0 without a check plate
 * @source       common practice
 * @example      checkPlateError({ checkPlate: { nominal: 0.070, before: 0.0693, after: 0.0702 } }) // 0.01
 */
export function checkPlateError({ checkPlate }: Bench): number {
  if (checkPlate === undefined) return 0;
  const { nominal, before = nominal, after = nominal } = checkPlate;
  return Math.max(Math.abs(before / nominal - 1), Math.abs(after / nominal - 1));
}
