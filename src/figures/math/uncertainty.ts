import { studentT } from "./student-t.ts";

/**
 * One source of error of a quantity. Terms with the same `error` are fully correlated and add linearly; terms with the
 * same `estimate` share one estimate of its size, and so its degrees of freedom.
 */
export type Term = {
  /** Identifies the error. */
  readonly error: string;
  /** Identifies the estimate of its size. */
  readonly estimate: string;
  /** Standard uncertainty, with the sign in which the error acts [m³/s]. */
  readonly u: number;
  /** Degrees of freedom of the estimate; Infinity for one stated outright. */
  readonly dof: number;
};

/** A combined uncertainty: standard, its effective degrees of freedom, and expanded at 95.45 %. */
export type CombinedUncertainty = { readonly u: number; readonly dof: number; readonly expanded: number };

/**
 * Combined and expanded uncertainty of a linear combination whose sensitivities stand in the terms already.
 *
 *     u² = Σ_errors (Σ u_i)²,  ν = u⁴ ÷ Σ_estimates (u_e⁴ ÷ ν_e),  U = t(ν) u
 *
 * @param terms  the budget: one term for each source and input, any order
 * @returns      u, U [unit of the terms] and ν [1]; 0, 0 and Infinity for an empty budget
 * @source       JCGM 100:2008 (GUM), 5.1, 5.2.2 and G.4 (Welch–Satterthwaite)
 * @example      combine([{ error: "a", estimate: "a", u: 3, dof: Infinity }, { error: "b", estimate: "b", u: 4, dof: Infinity }]).expanded // 10
 */
export function combine(terms: readonly Term[]): CombinedUncertainty {
  const errors = new Map<string, Omit<Term, "error">>();
  for (const { error, estimate, u, dof } of terms)
    errors.set(error, { estimate, u: (errors.get(error)?.u ?? 0) + u, dof });
  const estimates = new Map<string, { readonly variance: number; readonly dof: number }>();
  for (const { estimate, u, dof } of errors.values())
    estimates.set(estimate, { variance: (estimates.get(estimate)?.variance ?? 0) + u * u, dof });
  const parts = [...estimates.values()].filter((part) => part.variance > 0);
  const variance = parts.reduce((sum, part) => sum + part.variance, 0);
  if (variance === 0) return { u: 0, dof: Number.POSITIVE_INFINITY, expanded: 0 };
  // Relative to the whole, so that small numbers raised to the fourth power do not vanish.
  const inverse = parts.reduce((sum, part) => sum + (part.variance / variance) ** 2 / part.dof, 0);
  const dof = inverse === 0 ? Number.POSITIVE_INFINITY : 1 / inverse;
  const u = Math.sqrt(variance);
  return { u, dof, expanded: studentT(dof) * u };
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
 * @example              propagate([[{ error: "a", estimate: "a", u: 3, dof: 9 }]], [2]) // [{ error: "a", estimate: "a", u: 6, dof: 9 }]
 */
export function propagate(budgets: readonly (readonly Term[])[], sensitivities: readonly number[]): Term[] {
  return budgets.flatMap((terms, k) => terms.map((term) => ({ ...term, u: term.u * sensitivities[k]! })));
}

/**
 * Terms of a difference, where an error that both sides share cancels: the accuracy of one bench, one test pressure's
 * conversion, a head that stayed where it was.
 *
 *     u(y − x): terms of y, and of x with the sign turned, less those named in both
 *
 * @param minuend     terms of y
 * @param subtrahend  terms of x
 * @returns           the terms of y − x
 * @source            JCGM 100:2008 (GUM), 5.2 with F.1.2.3 (common errors)
 * @example           difference([{ error: "bench", estimate: "bench", u: 3, dof: 9 }], [{ error: "bench", estimate: "bench", u: 2, dof: 9 }]) // []
 */
export function difference(minuend: readonly Term[], subtrahend: readonly Term[]): Term[] {
  const left = new Set(minuend.map(({ error }) => error));
  const right = new Set(subtrahend.map(({ error }) => error));
  return [
    ...minuend.filter(({ error }) => !right.has(error)),
    ...subtrahend.filter(({ error }) => !left.has(error)).map((term) => ({ ...term, u: -term.u })),
  ];
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
