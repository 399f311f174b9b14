import { logGamma } from "./incomplete-beta.ts";
import { CONFIDENCE, studentT } from "./student-t.ts";

/**
 * Quantile of the studentised range: the distance from the lowest to the highest of n like means, in their standard uncertainty,
 * that chance alone exceeds with probability 1 − p only. At 1e5 degrees of freedom and more it is that of the range.
 *
 *     P(q) = ∫ f_ν(s) W(q s) ds = p,  W(w) = n ∫ φ(z) (Φ(z) − Φ(z − w))^(n−1) dz,
 *     f_ν the density of s = √(χ²_ν ÷ ν)
 *
 * @param n                 number of means [1], 2 or more
 * @param degreesOfFreedom  ν of the standard uncertainty [1], 1 or greater; need not be whole
 * @param confidence        p [1], between 0 and 1; left out, that of k = 2
 * @returns                 q [1], to five digits; √2 t for two means
 * @source                  Harter, Tables of range and studentized range, Ann. Math. Statist. 31 (1960) 1122–1147; trapezoidal rule in z and ln s
 * @example                 studentisedRange(4, 20, 0.95) // 3.95829
 */
export function studentisedRange(n: number, degreesOfFreedom: number, confidence: number = CONFIDENCE): number {
  const nu = Math.min(degreesOfFreedom, 1e5);
  const least = Math.SQRT2 * studentT(nu, confidence);
  if (n <= 2) return least;
  // All pairs at once: never above Bonferroni's bound, never below a single pair.
  const most = Math.SQRT2 * studentT(nu, 1 - (2 * (1 - confidence)) / (n * (n - 1)));
  const normal = normalDistribution();
  return solve((q) => probabilityBelow(q, n, nu, normal) - confidence, least, most);
}

/** P(q) by the trapezoidal rule in u = ln s, outwards from the density's peak until the terms are negligible. */
function probabilityBelow(q: number, n: number, nu: number, normal: Distribution): number {
  const scale = Math.log(2) + (nu / 2) * Math.log(nu / 2) - logGamma(nu / 2);
  const step = Math.min(0.2, 0.6 / Math.sqrt(nu));
  const at = (u: number) => {
    const density = Math.exp(scale + nu * (u - Math.exp(2 * u) / 2));
    return density < NEGLIGIBLE ? 0 : density * rangeBelow(q * Math.exp(u), n, normal);
  };
  let sum = at(0);
  for (const direction of [-step, step]) {
    for (let k = 1; ; k++) {
      const value = at(k * direction);
      sum += value;
      if (value < NEGLIGIBLE) break;
    }
  }
  return sum * step;
}

/** Less than this of a density adds nothing. */
const NEGLIGIBLE = 1e-12;
/** Step and ends of the trapezoidal rule over the normal density. */
const Z = { step: 0.4, end: 6 } as const;

/** W(w): probability that n normal values lie within w. */
function rangeBelow(w: number, n: number, normal: Distribution): number {
  let sum = 0;
  for (let z = -Z.end; z <= Z.end; z += Z.step) {
    sum += Math.exp((-z * z) / 2) * (normal(z) - normal(z - w)) ** (n - 1);
  }
  return (n * Z.step * sum) / Math.sqrt(2 * Math.PI);
}

type Distribution = (x: number) => number;

/** Φ: a table at steps of 1/16, between them cubic by its derivative φ, which is known: within 1e-7. */
function normalDistribution(): Distribution {
  const step = 1 / 16;
  const end = 8;
  const table = Array.from({ length: (2 * end) / step + 1 }, (_, k) => normalBelow(k * step - end));
  const density = (x: number) => Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI);
  const slopes = table.map((_, k) => density(k * step - end) * step);
  return (x) => {
    if (x <= -end) return 0;
    if (x >= end) return 1;
    const place = (x + end) / step;
    const k = Math.floor(place);
    const t = place - k;
    const rise = table[k + 1]! - table[k]!;
    const [a, b] = [slopes[k]! - rise, rise - slopes[k + 1]!];
    return table[k]! + t * rise + t * (1 - t) * ((1 - t) * a + t * b);
  };
}

/** Φ(x) = ½ + φ(x) (x + x³ ÷ 3 + x⁵ ÷ 15 + …), for |x| to 8. */
function normalBelow(x: number): number {
  let term = x;
  let sum = x;
  for (let k = 3; Math.abs(term) > 1e-17 * Math.abs(sum); k += 2) {
    term *= (x * x) / k;
    sum += term;
  }
  return 0.5 + (sum * Math.exp((-x * x) / 2)) / Math.sqrt(2 * Math.PI);
}

/** Root of a rising function between two bounds, by the Illinois method. */
function solve(f: (x: number) => number, low: number, high: number): number {
  let [a, fa, b, fb] = [low, f(low), high, f(high)];
  for (let k = 0; k < 60 && Math.abs(b - a) > 1e-7 * high && fb !== fa; k++) {
    const x = b - (fb * (b - a)) / (fb - fa);
    const fx = f(x);
    if (fx * fb < 0) [a, fa] = [b, fb];
    else fa /= 2;
    if (Math.abs(x - b) < 1e-7 * high) return x;
    [b, fb] = [x, fx];
  }
  return b;
}
