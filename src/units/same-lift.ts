/** Lifts nearer than this are the same lift [m]. */
export const SAME_LIFT = 1e-6;

/**
 * Whether two lifts are equal within the resolution of a dial indicator.
 *
 *     same ⇔ |a − b| ≤ 1 µm
 *
 * @param a  one lift [m]
 * @param b  the other [m]
 * @returns  true within a micrometre, which no dial shows
 * @source   common practice: a dial indicator resolves 0.01 mm
 * @example  sameLift(0.00508, 0.0050802) // true
 */
export function sameLift(a: number, b: number): boolean {
  return Math.abs(a - b) <= SAME_LIFT;
}
