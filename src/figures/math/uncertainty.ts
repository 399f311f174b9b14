import { INFINITE_DOF } from "../constants.ts";
import type { Budget } from "../figures.ts";
import { CONFIDENCE, studentT } from "./student-t.ts";

/** Kinds of error that a budget names, in the order in which they are listed. */
const PARTS = ["accuracy", "repeats", "remounting", "lift_setting", "resolution", "leakage", "conversion"] as const;
export type BudgetPart = (typeof PARTS)[number];

/**
 * One source of error of a quantity. Terms with the same `error` are fully correlated and add linearly; terms with the
 * same `estimate` share one estimate of its size, and so its degrees of freedom.
 */
export type Term = {
  readonly part: BudgetPart;
  /** Identifies the error; of a lift setting, that of the whole mount. */
  readonly error: string;
  /** Lift setting only: identifies the error if each lift was set by itself. */
  readonly errorAtLift?: string;
  /** Identifies the estimate of its size. */
  readonly estimate: string;
  /** Standard uncertainty, with the sign in which the error acts [m³/s]. */
  readonly u: number;
  /** Degrees of freedom of the estimate; Infinity for one stated outright. */
  readonly dof: number;
};

/** A combined uncertainty: standard, its effective degrees of freedom, expanded at 95.45 %, and shares of u². */
export type CombinedUncertainty = {
  readonly u: number;
  readonly dof: number;
  readonly expanded: number;
  readonly parts: Budget["parts"];
};

/** How lift settings add: `own`, each lift's by itself; `larger`, that way or as one error of a mount, whichever is larger. */
export type LiftSettings = "own" | "larger";

/**
 * Combined and expanded uncertainty of a linear combination whose sensitivities stand in the terms already.
 *
 *     u² = Σ_errors (Σ u_i)²,  ν = u⁴ ÷ Σ_estimates (u_e⁴ ÷ ν_e),  U = t(ν) u
 *
 * @param terms  the budget: one term for each source and input, any order
 * @param lifts  how lift settings add
 * @returns      u, U [unit of the terms], ν [1] and the parts' shares of u² [1]; 0, 0 and Infinity for an empty budget
 * @source       JCGM 100:2008 (GUM), 5.1, 5.2.2 and G.4 (Welch–Satterthwaite)
 * @example      combine([{ part: "accuracy", error: "a", estimate: "a", u: 3, dof: Infinity }, { part: "repeats", error: "b", estimate: "b", u: 4, dof: Infinity }]) // { u: 5, dof: Infinity, expanded: 10, parts: { accuracy: 0.36, repeats: 0.64 } }
 */
export function combine(terms: readonly Term[], lifts: LiftSettings = "larger"): CombinedUncertainty {
  return combineInputs([terms], [1], lifts);
}

/**
 * The same of a quantity made from several inputs, each with its budget. Errors that inputs share cancel or add by their
 * signs; what is stated as a share of a value stays in a difference by as much as the two differ.
 *
 *     y = f(x_1, …),  u_i → (∂f ÷ ∂x) u_i, then as `combine`
 *
 * @param budgets        terms of each input, one list an input
 * @param sensitivities  ∂f ÷ ∂x, one an input
 * @param lifts          how lift settings add
 * @returns              the combined uncertainty of y
 * @source               JCGM 100:2008 (GUM), 5.1.3 and 5.2.2
 * @example              combineInputs([[{ part: "accuracy", error: "a", estimate: "a", u: 3, dof: Infinity }], [{ part: "accuracy", error: "a", estimate: "a", u: 2, dof: Infinity }]], [1, -1]).u // 1
 */
export function combineInputs(
  budgets: readonly (readonly Term[])[],
  sensitivities: readonly number[],
  lifts: LiftSettings = "larger",
): CombinedUncertainty {
  const errors = new Map<string, ErrorSum>();
  const ofMounts = new Map<string, number>();
  const ofLifts = new Map<string, number>();
  for (const [k, terms] of budgets.entries()) {
    const by = sensitivities[k]!;
    for (const { part, error, errorAtLift, estimate, dof, u } of terms) {
      if (errorAtLift !== undefined) {
        ofMounts.set(error, (ofMounts.get(error) ?? 0) + u * by);
        ofLifts.set(errorAtLift, (ofLifts.get(errorAtLift) ?? 0) + u * by);
        continue;
      }
      const sum = errors.get(error);
      if (sum === undefined) errors.set(error, { part, estimate, dof, u: u * by });
      else sum.u += u * by;
    }
  }
  const setting = Math.max(lifts === "larger" ? sumOfSquares(ofMounts) : 0, sumOfSquares(ofLifts));
  return combineErrors([
    ...errors.values(),
    { part: "lift_setting", estimate: "lift setting", u: Math.sqrt(setting), dof: INFINITE_DOF },
  ]);
}

/** One error of a result: the sum of what it does through all inputs. */
type ErrorSum = Pick<Term, "part" | "estimate" | "dof"> & { u: number };

/** What remains of an error that cancels is the rounding of a computer's numbers: no share. */
const NO_SHARE = 1e-12;

function sumOfSquares(errors: ReadonlyMap<string, number>): number {
  let sum = 0;
  for (const u of errors.values()) sum += u * u;
  return sum;
}

/** Independent errors: their combined size, its effective degrees of freedom and its parts. */
function combineErrors(errors: readonly ErrorSum[]): CombinedUncertainty {
  const estimates = new Map<string, { variance: number; readonly dof: number }>();
  const sums: { [part in BudgetPart]?: number } = {};
  let whole = 0;
  for (const { part, estimate, u, dof } of errors) {
    const variance = u * u;
    if (variance === 0) continue;
    whole += variance;
    sums[part] = (sums[part] ?? 0) + variance;
    const known = estimates.get(estimate);
    if (known === undefined) estimates.set(estimate, { variance, dof });
    else known.variance += variance;
  }
  if (whole === 0) return { u: 0, dof: INFINITE_DOF, expanded: 0, parts: {} };
  // Relative to the whole, so that small numbers raised to the fourth power do not vanish.
  let inverse = 0;
  for (const { variance, dof } of estimates.values()) inverse += (variance / whole) ** 2 / dof;
  const dof = inverse === 0 ? INFINITE_DOF : 1 / inverse;
  const u = Math.sqrt(whole);
  const parts: { [part in BudgetPart]?: number } = {};
  for (const part of PARTS) {
    const share = (sums[part] ?? 0) / whole;
    if (share > NO_SHARE) parts[part] = share;
  }
  return { u, dof, expanded: studentT(dof) * u, parts };
}

/**
 * The ± of a combined uncertainty at another level of confidence than the usual.
 *
 *     U = t_p(ν) u
 *
 * @param combined    u [any unit] and ν [1]
 * @param confidence  p [1], between 0 and 1
 * @returns           U in the unit of u
 * @source            JCGM 100:2008 (GUM), annex G
 * @example           expandedAt({ u: 2, dof: Infinity, expanded: 4, parts: {} }, 0.99) // 5.1517
 */
export function expandedAt({ u, dof, expanded }: CombinedUncertainty, confidence: number): number {
  return confidence === CONFIDENCE ? expanded : studentT(dof, confidence) * u;
}

/**
 * The budget that stands beside a ±.
 *
 *     k = U ÷ u
 *
 * @param combined  the combined uncertainty
 * @returns         u, ν where finite, k, and the parts; k is 2 where u is 0
 * @source          JCGM 100:2008 (GUM), 7.2.1 and 7.2.7: what to report with a ±
 * @example         budgetOf({ u: 2, dof: Infinity, expanded: 4, parts: { repeats: 1 } }) // { u: 2, k: 2, parts: { repeats: 1 } }
 */
export function budgetOf({ u, dof, expanded, parts }: CombinedUncertainty): Budget {
  return { u, ...(Number.isFinite(dof) ? { dof } : {}), k: u === 0 ? 2 : expanded / u, parts };
}

/**
 * A ± of a flow with its budget, as figures; nothing where it is not known.
 *
 *     U and its budget, see `budgetOf`
 *
 * @param combined  the combined uncertainty [m³/s], if known
 * @returns         the two keys, or none
 * @example         uncertaintyFigures(undefined) // {}
 */
export function uncertaintyFigures(combined: CombinedUncertainty | undefined): {
  readonly uncertainty_m3_s?: number;
  readonly budget?: Budget;
} {
  return combined === undefined ? {} : { uncertainty_m3_s: combined.expanded, budget: budgetOf(combined) };
}

/**
 * Terms of a quantity made from several inputs: every term of an input times the sensitivity to that input.
 *
 *     u_i → (∂f ÷ ∂x) u_i
 *
 * @param budgets        terms of each input, one list an input
 * @param sensitivities  ∂f ÷ ∂x, one an input
 * @returns              the terms of the result
 * @source               JCGM 100:2008 (GUM), 5.1.3
 * @example              propagate([[{ part: "accuracy", error: "a", estimate: "a", u: 3, dof: 9 }]], [2]) // [{ part: "accuracy", error: "a", estimate: "a", u: 6, dof: 9 }]
 */
export function propagate(budgets: readonly (readonly Term[])[], sensitivities: readonly number[]): Term[] {
  return budgets.flatMap((terms, k) => terms.map((term) => ({ ...term, u: term.u * sensitivities[k]! })));
}

/**
 * Sensitivity of a function to each of its inputs, by central differences.
 *
 *     ∂f ÷ ∂x_i ≈ (f(x_i + h) − f(x_i − h)) ÷ 2h,  h = 1e-5 of the largest input
 *
 * @param f       the function of all inputs
 * @param inputs  where, one number an input
 * @returns       the sensitivities, one an input; 0 where all inputs are 0
 * @source        JCGM 100:2008 (GUM), 5.1.4
 * @example       sensitivities(([a, b]) => a * b, [2, 3]) // [3, 2]
 */
export function sensitivities(f: (inputs: readonly number[]) => number, inputs: readonly number[]): number[] {
  const h = 1e-5 * Math.max(...inputs.map(Math.abs), 0);
  if (h === 0) return inputs.map(() => 0);
  return inputs.map((input, k) => (f(inputs.with(k, input + h)) - f(inputs.with(k, input - h))) / (2 * h));
}
