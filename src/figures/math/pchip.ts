import { type CubicMetresPerSecond, cubicMetresPerSecond, type Metres, metres } from "../../units/quantity.ts";

/** Monotone piecewise cubic of flow, or another value, against lift: knots ascending, with values and slopes [m²/s]; at least 2. */
export type Curve<Value extends number = CubicMetresPerSecond> = {
  readonly x: readonly Metres[];
  readonly y: readonly Value[];
  readonly d: readonly number[];
};

/**
 * Slopes of the monotone piecewise cubic (PCHIP): weighted harmonic means inside, the three-point formula at the ends.
 *
 *     d_k = (w₁ + w₂) ÷ (w₁ ÷ δ_{k−1} + w₂ ÷ δ_k),  w₁ = 2 h_k + h_{k−1},  w₂ = h_k + 2 h_{k−1};  0 where δ changes sign
 *
 * @param x  knots, ascending and distinct, at least 2
 * @param y  values at the knots, one each
 * @returns  slopes at the knots, one each; for two knots the slope between them
 * @source   Fritsch & Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300–304; ends as PCHIM of the SLATEC library
 * @example  pchipSlopes([0, 1, 2], [0, 1, 3]) // [0.5, 1.3333, 2.5]
 */
export function pchipSlopes(x: readonly number[], y: readonly number[]): number[] {
  const h = x.slice(1).map((right, k) => right - x[k]!);
  const delta = h.map((width, k) => (y[k + 1]! - y[k]!) / width);
  const last = h.length - 1;
  if (last === 0) return [delta[0]!, delta[0]!];
  const inside = h.slice(1).map((right, k) => {
    const left = h[k]!;
    const w1 = 2 * right + left;
    const w2 = right + 2 * left;
    return delta[k]! * delta[k + 1]! <= 0 ? 0 : (w1 + w2) / (w1 / delta[k]! + w2 / delta[k + 1]!);
  });
  const first = endSlope(h[0]!, h[1]!, delta[0]!, delta[1]!);
  return [first, ...inside, endSlope(h[last]!, h[last - 1]!, delta[last]!, delta[last - 1]!)];
}

/** Three-point slope at an end, kept from overshooting: nearest interval first. */
function endSlope(h1: number, h2: number, delta1: number, delta2: number): number {
  const slope = ((2 * h1 + h2) * delta1 - h1 * delta2) / (h1 + h2);
  if (slope * delta1 <= 0) return 0;
  if (delta1 * delta2 < 0 && Math.abs(slope) > 3 * Math.abs(delta1)) return 3 * delta1;
  return slope;
}

/**
 * The interpolant through readings and through the shut valve: no lift, no flow.
 *
 *     PCHIP through (0, 0) and (L_i, Q_i)
 *
 * @param lifts  lifts L_i [m], ascending, distinct, greater than 0; at least 1
 * @param flows  flows Q_i [m³/s], one a lift
 * @returns      the curve; straight for a single reading
 * @source       Fritsch & Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300–304
 * @example      flowCurve([0.01], [0.05]) // { x: [0, 0.01], y: [0, 0.05], d: [5, 5] }
 */
export function flowCurve(lifts: readonly Metres[], flows: readonly CubicMetresPerSecond[]): Curve {
  const x = [metres(0), ...lifts];
  const y = [cubicMetresPerSecond(0), ...flows];
  return { x, y, d: pchipSlopes(x, y) };
}

/**
 * Value of a piecewise cubic Hermite curve.
 *
 *     f = y₀ + d₀ s + c₂ s² + c₃ s³ within an interval of width h, s from its left end
 *
 * @param curve  the curve
 * @param at     where [the unit of its knots]
 * @returns      the value, or undefined outside the knots: nothing is ever extrapolated
 * @source       Fritsch & Carlson, SIAM J. Numer. Anal. 17 (1980) 238–246
 * @example      curveAt({ x: [0, 1], y: [0, 1], d: [1, 1] }, 0.25) // 0.25
 */
export function curveAt<Value extends number>(curve: Curve<Value>, at: Metres): Value | undefined {
  const k = intervalIndex(curve, at);
  if (k === undefined) return undefined;
  const { y0, d0, c2, c3, h } = cubicCoefficients(curve, k);
  const s = at - curve.x[k]!;
  if (s === h) return curve.y[k + 1]!;
  return (y0 + s * (d0 + s * (c2 + s * c3))) as Value;
}

/**
 * Exact integral of a piecewise cubic Hermite curve from its first knot.
 *
 *     ∫ = Σ over intervals of y₀ s + d₀ s² ÷ 2 + c₂ s³ ÷ 3 + c₃ s⁴ ÷ 4
 *
 * @param curve  the curve
 * @param to     upper end, clamped to the knots
 * @returns      the integral [value × knot]; 0 at the first knot
 * @source       elementary calculus
 * @example      integralTo({ x: [0, 2], y: [0, 2], d: [1, 1] }, 2) // 2
 */
export function integralTo(curve: Curve, to: Metres): number {
  let sum = 0;
  for (let k = 0; k + 1 < curve.x.length && curve.x[k]! < to; k++) {
    const { y0, d0, c2, c3, h } = cubicCoefficients(curve, k);
    const s = Math.min(to - curve.x[k]!, h);
    sum += s * (y0 + s * (d0 / 2 + s * (c2 / 3 + (s * c3) / 4)));
  }
  return sum;
}

function intervalIndex({ x }: Pick<Curve, "x">, at: Metres): number | undefined {
  if (!(at >= x[0]! && at <= x[x.length - 1]!)) return undefined;
  let k = 0;
  while (k + 2 < x.length && at >= x[k + 1]!) k++;
  return k;
}

function cubicCoefficients(curve: Curve<number>, k: number) {
  const h = curve.x[k + 1]! - curve.x[k]!;
  const y0 = curve.y[k]!;
  const d0 = curve.d[k]!;
  const d1 = curve.d[k + 1]!;
  const delta = (curve.y[k + 1]! - y0) / h;
  return { y0, d0, c2: (3 * delta - 2 * d0 - d1) / h, c3: (d0 + d1 - 2 * delta) / (h * h), h };
}

/**
 * Mean of a curve over a range of lift: the area under it ÷ the range.
 *
 *     Q̄ = ∫ Q dL ÷ (L₂ − L₁)
 *
 * @param curve  flow against lift [m³/s, m]
 * @param from   lower lift L₁ [m], within the curve
 * @param to     upper lift L₂ [m], within the curve
 * @returns      Q̄ [m³/s], or undefined where the range is empty or reaches beyond the readings
 * @source       mean value of a function; exact for the piecewise cubic
 * @example      meanFlow({ x: [0, 2], y: [0, 2], d: [1, 1] }, 1, 2) // 1.5
 */
export function meanFlow(curve: Curve, from: Metres, to: Metres): CubicMetresPerSecond | undefined {
  const first = curve.x[0]!;
  const last = curve.x[curve.x.length - 1]!;
  if (!(from >= first && to <= last && to > from)) return undefined;
  return cubicMetresPerSecond((integralTo(curve, to) - integralTo(curve, from)) / (to - from));
}
