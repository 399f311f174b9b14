import { cubicMetresPerSecond } from "../../units/quantity.ts";
import { type Curve, flowCurve } from "../math/pchip.ts";
import {
  type CombinedUncertainty,
  combineInputs,
  type LiftSettings,
  propagate,
  sensitivities,
  type Term,
} from "../math/uncertainty.ts";
import type { Sweep } from "./sweep.ts";

/**
 * Budget of a number read off a sweep's curve, such as its mean or a flow between two readings.
 *
 *     terms of every reading × ∂f ÷ ∂Q of it
 *
 * @param sweep  the sweep
 * @param f      the number, from a curve through the same lifts
 * @returns      the terms, or undefined where the readings have no budget
 * @source       JCGM 100:2008 (GUM), 5.1.3
 * @example      curveTerms({ good: [{ lift: 1, flow: 2, terms: [{ error: "a", estimate: "a", part: "repeats", u: 1, dof: 9 }] }] }, (curve) => 3 * curve.y[1])[0].u // 3
 */
export function curveTerms(sweep: Pick<Sweep, "good">, f: (curve: Curve) => number | undefined): Term[] | undefined {
  const budgets = sweep.good.map((reading) => reading.terms);
  if (budgets.length === 0 || budgets.some((terms) => terms === undefined)) return undefined;
  const lifts = sweep.good.map((reading) => reading.lift);
  const at = (flows: readonly number[]) => f(flowCurve(lifts, flows.map(cubicMetresPerSecond))) ?? 0;
  const flows = sweep.good.map((reading) => reading.flow);
  return propagate(budgets as Term[][], sensitivities(at, flows));
}

/**
 * Uncertainty of a difference of two budgets: an error that both share remains by as much as the two differ.
 *
 *     U(y − x)
 *
 * @param minuend     terms of y, if known
 * @param subtrahend  terms of x, if known
 * @param lifts       how lift settings add; `own` within one sweep
 * @returns           the combined uncertainty, or undefined unless both are known
 * @source            JCGM 100:2008 (GUM), 5.2
 * @example           uncertaintyOfDifference(undefined, []) // undefined
 */
export function uncertaintyOfDifference(
  minuend: readonly Term[] | undefined,
  subtrahend: readonly Term[] | undefined,
  lifts: LiftSettings = "larger",
): CombinedUncertainty | undefined {
  return minuend === undefined || subtrahend === undefined
    ? undefined
    : combineInputs([minuend, subtrahend], [1, -1], lifts);
}

/**
 * Uncertainty of a ratio of two budgets; an error in proportion that both share falls out of itself.
 *
 *     r = y ÷ x,  ∂r ÷ ∂y = 1 ÷ x,  ∂r ÷ ∂x = −y ÷ x²
 *
 * @param y        numerator, above 0
 * @param yTerms   its terms, if known
 * @param x        denominator, above 0
 * @param xTerms   its terms, if known
 * @param lifts    how lift settings add; `own` within one sweep
 * @returns        the combined uncertainty of r [1], or undefined unless both are known
 * @source         JCGM 100:2008 (GUM), 5.1.3
 * @example        uncertaintyOfRatio(2, [{ part: "accuracy", error: "k", estimate: "k", u: 0.2, dof: Infinity }], 1, [{ part: "accuracy", error: "k", estimate: "k", u: 0.1, dof: Infinity }]).u // 0
 */
export function uncertaintyOfRatio(
  y: number,
  yTerms: readonly Term[] | undefined,
  x: number,
  xTerms: readonly Term[] | undefined,
  lifts: LiftSettings = "larger",
): CombinedUncertainty | undefined {
  return yTerms === undefined || xTerms === undefined
    ? undefined
    : combineInputs([yTerms, xTerms], [1 / x, -y / (x * x)], lifts);
}
