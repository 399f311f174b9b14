/** Lanczos coefficients, g = 7, n = 9: about 15 digits. */
const LANCZOS = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
  12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
] as const;

/**
 * Natural logarithm of the gamma function.
 *
 *     ln Γ(x) by Lanczos' series
 *
 * @param x  argument x [1], greater than 0
 * @returns  ln Γ(x) [1]; 0 at 1 and 2
 * @source   Lanczos, SIAM J. Numer. Anal. B 1 (1964) 86–96; coefficients from memory, checked against factorials
 * @example  logGamma(6) // 4.787492
 */
export function logGamma(x: number): number {
  const z = x - 1;
  const t = z + 7.5;
  let sum: number = LANCZOS[0];
  for (let k = 1; k < LANCZOS.length; k++) sum += LANCZOS[k]! / (z + k);
  return 0.5 * Math.log(2 * Math.PI) + (z + 0.5) * Math.log(t) - t + Math.log(sum);
}

/**
 * Regularised incomplete beta function, by its continued fraction.
 *
 *     I_x(a, b) = x^a (1 − x)^b ÷ (a B(a, b)) · continued fraction
 *
 * @param x  upper limit x [1], 0 to 1
 * @param a  first shape a [1], greater than 0
 * @param b  second shape b [1], greater than 0
 * @returns  I_x(a, b) [1]; 0 at x = 0, 1 at x = 1
 * @source   Abramowitz & Stegun, Handbook of Mathematical Functions (1964), 26.5.8
 * @example  incompleteBeta(0.5, 2, 2) // 0.5
 */
export function incompleteBeta(x: number, a: number, b: number): number {
  return incompleteBetaFunction(a, b)(x);
}

/**
 * Regularised incomplete beta function for many x: the terms that depend on the shapes alone are computed once.
 *
 *     x → I_x(a, b)
 *
 * @param a  first shape a [1], greater than 0
 * @param b  second shape b [1], greater than 0
 * @returns  the function of x
 * @source   Abramowitz & Stegun, Handbook of Mathematical Functions (1964), 26.5.8
 * @example  incompleteBetaFunction(2, 2)(0.5) // 0.5
 */
export function incompleteBetaFunction(a: number, b: number): (x: number) => number {
  const whole = logGamma(a + b);
  const [first, second] = [logGamma(a), logGamma(b)];
  const direct = whole - first - second;
  const mirrored = whole - second - first;
  return (x) => {
    if (x <= 0) return 0;
    if (x >= 1) return 1;
    // Beyond the mean the continued fraction converges slowly, so its mirror image is used.
    return x > (a + 1) / (a + b + 2)
      ? 1 - continuedFraction(1 - x, b, a, mirrored)
      : continuedFraction(x, a, b, direct);
  };
}

/** The continued fraction; `scale` is ln(1 ÷ B(a, b)). */
function continuedFraction(x: number, a: number, b: number, scale: number): number {
  const front = Math.exp(scale + a * Math.log(x) + b * Math.log1p(-x)) / a;
  let c = 1;
  let d = 1 / (1 - ((a + b) * x) / (a + 1));
  let fraction = d;
  for (let m = 1; m < 500; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / (1 + even * d);
    c = 1 + even / c;
    fraction *= c * d;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / (1 + odd * d);
    c = 1 + odd / c;
    fraction *= c * d;
    if (Math.abs(c * d - 1) < 1e-15) break;
  }
  return front * fraction;
}
