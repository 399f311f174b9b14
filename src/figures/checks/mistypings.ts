/**
 * What a number may have been before a slip of the pen: two neighbouring digits swapped, or the decimal point lost or moved
 * by one place.
 *
 *     swap each pair of neighbouring digits; × 10; ÷ 10
 *
 * @param value     the number as typed, 0 or greater
 * @param decimals  decimals with which it was typed
 * @returns         the candidates, none equal to the number itself
 * @source          common practice: what a keyboard and a smudged sheet do
 * @example         mistypings(131.5, 1) // [311.5, 113.5, 135.1, 1315, 13.15]
 */
export function mistypings(value: number, decimals: number): number[] {
  const digits = value.toFixed(decimals).replace(".", "");
  const swapped = [...digits].slice(1).map((_, k) => {
    const other = digits.slice(0, k) + digits[k + 1] + digits[k] + digits.slice(k + 2);
    return Number(other) / 10 ** decimals;
  });
  return [...swapped, value * 10, value / 10].filter((candidate) => candidate !== value);
}
