import { exceeds } from "../math/limits.ts";

/**
 * The median of some values.
 *
 *     the middle one by size; of an even number the mean of the middle two
 *
 * @param values  in any order; at least one
 * @returns       the median, in the unit of the values
 * @source        definition
 * @example       median([3, 1, 2, 10]) // 2.5
 */
export function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const middle = sorted.length / 2;
  return (sorted[Math.ceil(middle) - 1]! + sorted[Math.floor(middle)]!) / 2;
}

/**
 * Which values of a row lie off its median by more than what counts as alike.
 *
 *     |value − median| > alike
 *
 * @param values  one a valve; undefined where it was not taken [m]
 * @param alike   what the shop calls alike [m]; undefined: nothing is judged
 * @returns       one flag a valve, in the order of the values
 * @source        the shop's own limit
 * @example       offMedian([0.021, 0.023, 0.021, 0.046], 0.005) // [false, false, false, true]
 */
export function offMedian(values: readonly (number | undefined)[], alike: number | undefined): readonly boolean[] {
  const known = values.filter((value) => value !== undefined);
  if (alike === undefined || known.length < 3) return values.map(() => false);
  const middle = median(known);
  return values.map((value) => value !== undefined && exceeds(Math.abs(value - middle) * 1000, alike * 1000));
}

/**
 * Which shims are not that of more than half of their row.
 *
 *     shim ≠ the shim that more than half of the row has
 *
 * @param shims  one a valve; undefined where it was not taken [m]
 * @returns      one flag a valve, in the order of the shims; all false where no shim has a majority
 * @source       definition
 * @example      anotherShim([0.03, 0.045, 0.03]) // [false, true, false]
 */
export function anotherShim(shims: readonly (number | undefined)[]): readonly boolean[] {
  const known = shims.filter((shim) => shim !== undefined);
  const usual = known.find((shim) => 2 * known.filter((one) => isSame(one, shim)).length > known.length);
  return shims.map((shim) => shim !== undefined && usual !== undefined && !isSame(shim, usual));
}

/** Lengths that differ by less than 1 µm are equal. */
const isSame = (one: number, other: number) => Math.abs(one - other) < 1e-6;
