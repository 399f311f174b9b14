/**
 * Numbers that a slip of the hand may have turned into this one: two neighbouring digits swapped, or the decimal point lost or
 * moved by one to three places.
 *
 *     swap each pair of neighbouring digits; × 10ⁿ and ÷ 10ⁿ for n = 1 to 3
 *
 * @param typed  the number as typed: digits with at most one point, without sign and unit
 * @returns      the candidates with their digits as typed, likeliest first, none equal to the number itself
 * @source       common practice: usual slips when numbers are typed or read from paper
 * @example      mistypings("131.5").slice(0, 3) // ["311.5", "113.5", "135.1"]
 */
export function mistypings(typed: string): readonly string[] {
  if (!/^\d*\.?\d*$/.test(typed) || !/\d/.test(typed) || typed.length > 15) return [];
  const [whole = "", part = ""] = typed.split(".");
  const digits = whole + part;
  const swapped = [...digits].slice(1).flatMap((_, k) => {
    const other = digits.slice(0, k) + digits[k + 1] + digits[k] + digits.slice(k + 2);
    return other === digits ? [] : [withPoint(other, whole.length)];
  });
  const moved = [1, -1, 2, -2, 3, -3].map((places) => withPoint(digits, whole.length + places));
  return [...new Set([...swapped, ...moved])].filter((one) => Number(one) !== Number(typed));
}

/** Digits with a point behind the first `at` of them, padded with zeros where it lies outside. */
function withPoint(digits: string, at: number): string {
  const padded = at < 1 ? digits.padStart(digits.length + 1 - at, "0") : digits.padEnd(at, "0");
  const whole = padded.slice(0, Math.max(1, at)).replace(/^0+(?=\d)/, "");
  const part = padded.slice(Math.max(1, at));
  return part === "" ? whole : `${whole}.${part}`;
}

/**
 * Of the numbers that may have been meant the one nearest to the middle of a range.
 *
 *     min |x − (low + high) ÷ 2| over the candidates with low < x < high
 *
 * @param typed  the number as typed, see `mistypings`
 * @param low    lower end, not included
 * @param high   upper end, not included
 * @param scale  factor from the typed number to the unit of the ends
 * @returns      the candidate, with its digits as typed; undefined where none lies between
 * @source       common practice
 * @example      meantBetween("0.025", 0.2, 0.3, 1) // "0.25"
 */
export function meantBetween(typed: string, low: number, high: number, scale: number): string | undefined {
  const middle = (low + high) / 2;
  const off = (text: string) => Math.abs(Number(text) * scale - middle);
  return mistypings(typed)
    .filter((text) => Number(text) * scale > low && Number(text) * scale < high)
    .toSorted((a, b) => off(a) - off(b))[0];
}
