import type { Bench } from "../../model/model.ts";
import { NO_FLOW } from "../constants.ts";
import { rangeToDeviation } from "../math/range-factor.ts";

/** A relative standard deviation [1] and its degrees of freedom. */
export type Deviation = { readonly s: number; readonly dof: number };

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
export function pooledDeviation(groups: readonly (readonly number[])[]): Deviation | undefined {
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
 * Repeatability that the bench states, as a standard deviation.
 *
 *     s = (± at k = 2) ÷ 2, or spread ÷ d₂
 *
 * @param bench  the bench
 * @returns      s and ν; undefined where none is stated
 * @source       JCGM 100:2008 (GUM), 4.3.3 and 4.3.4
 * @example      statedDeviation({ repeatability: { kind: "expanded", value: 0.01 } }) // { s: 0.005, dof: Infinity }
 */
export function statedDeviation({ repeatability }: Pick<Bench, "repeatability">): Deviation | undefined {
  if (repeatability === undefined) return undefined;
  if (repeatability.kind === "range") return rangeToDeviation(repeatability.spread, repeatability.of);
  return { s: repeatability.value / 2, dof: Number.POSITIVE_INFINITY };
}
