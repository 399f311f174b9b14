/** Slack for the last bit of a computed number, so that a value at its limit is not beyond it. */
const SLACK = 1e-9;

/**
 * Whether a value lies beyond a limit, a value at the limit being within it.
 *
 *     value > limit + 1e-9
 *
 * @param value  the value [1 or SI of that size]
 * @param limit  the limit
 * @returns      true beyond; false at the limit
 * @example      exceeds(0.1 + 0.2, 0.3) // false
 */
export function exceeds(value: number, limit: number): boolean {
  return value > limit + SLACK;
}

/**
 * Whether a value lies outside a range whose ends belong to it.
 *
 *     value < low − 1e-9 or value > high + 1e-9
 *
 * @param value  the value
 * @param low    lower end
 * @param high   upper end
 * @returns      true outside; false at either end
 * @example      isOutside(0.8, 0.8, 0.92) // false
 */
export function isOutside(value: number, low: number, high: number): boolean {
  return exceeds(value, high) || exceeds(low, value);
}
