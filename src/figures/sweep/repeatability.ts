import type { Bench } from "../../model/model.ts";
import { NO_FLOW } from "../constants.ts";
import { rangeToDeviation } from "../math/range-factor.ts";

/** A relative standard deviation of one reading [1], its degrees of freedom, and where it comes from. */
export type Repeatability = { readonly s: number; readonly dof: number; readonly from: "repeats" | "bench" };

/**
 * Pooled relative standard deviation of groups of repeats: each group one lift of one port on one mount.
 *
 *     s² = Σ (q_i ÷ q̄ − 1)² ÷ ν,  ν = Σ (n − 1)
 *
 * @param groups  readings of each group [m³/s]; groups of one reading, or with a mean not above 0, add nothing
 * @returns       s and ν; undefined when nothing was repeated
 * @source        JCGM 100:2008 (GUM), 4.2 and H.3.6 (pooled estimate)
 * @example       pooledDeviation([[99, 101], [49.5, 50.5]]) // { s: 0.0141421, dof: 2 }
 */
export function pooledDeviation(groups: readonly (readonly number[])[]): { s: number; dof: number } | undefined {
  let squares = 0;
  let dof = 0;
  for (const group of groups) {
    if (group.length < 2) continue;
    const mean = group.reduce((sum, value) => sum + value, 0) / group.length;
    if (!(mean > NO_FLOW)) continue;
    squares += group.reduce((sum, value) => sum + (value / mean - 1) ** 2, 0);
    dof += group.length - 1;
  }
  return dof === 0 ? undefined : { s: Math.sqrt(squares / dof), dof };
}

/**
 * Repeatability of one reading: from the run's own repeats, else as the bench states it, else from sweeps with the head
 * taken off between them, whose scatter has the re-mounting in it. A single pair of repeats, one degree of freedom, does
 * not replace the bench's value.
 *
 *     s = pooled, or (± at k = 2) ÷ 2, or spread ÷ d₂
 *
 * @param groups  the run's repeats, see `pooledDeviation`
 * @param bench   the bench, with its stated repeatability if any
 * @param across  gives the same repeats, grouped without regard to mounts
 * @returns       s, ν and origin; undefined when neither is known
 * @source        JCGM 100:2008 (GUM), 4.2 and 4.3
 * @example       repeatabilityOf([], { repeatability: { kind: "expanded", value: 0.01 } }) // { s: 0.005, dof: Infinity, from: "bench" }
 */
export function repeatabilityOf(
  groups: readonly (readonly number[])[],
  bench: Bench,
  across: () => readonly (readonly number[])[] = () => groups,
): Repeatability | undefined {
  const own = pooledDeviation(groups);
  if (own !== undefined && own.dof >= 2) return { s: own.s, dof: own.dof, from: "repeats" };
  const stated = statedDeviation(bench);
  if (stated !== undefined) return { s: stated.s, dof: stated.dof, from: "bench" };
  const remounted = pooledDeviation(across());
  return remounted === undefined ? undefined : { s: remounted.s, dof: remounted.dof, from: "repeats" };
}

function statedDeviation({ repeatability }: Bench): { s: number; dof: number } | undefined {
  if (repeatability === undefined) return undefined;
  if (repeatability.kind === "range") return rangeToDeviation(repeatability.spread, repeatability.of);
  return { s: repeatability.value / 2, dof: Number.POSITIVE_INFINITY };
}
