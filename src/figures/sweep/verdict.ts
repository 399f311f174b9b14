import type { Verdict } from "../../model/verdict.ts";
import type { CombinedUncertainty } from "../math/uncertainty.ts";

/**
 * Verdict on a change: clear only beyond its own ± and beyond the floor of repeated measurements.
 *
 *     clear ⇔ |change| > U and |change| > floor
 *
 * @param change       the change, in any unit; the sign says which way
 * @param uncertainty  its combined uncertainty in the same unit; undefined where no repeatability is known
 * @param floor        least change that counts, in the same unit, 0 or greater
 * @param same         whether both are one port, stage to stage; else another head
 * @returns            the verdict; `too few repeats` without an uncertainty: few degrees of freedom refuse nothing, the ± grows
 * @source             JCGM 106:2012, 7–8 (a decision with a guard band); the floor is common practice
 * @example            verdictOn(5, { u: 1, dof: 20, expanded: 2.1, parts: {} }, 0, true) // "clear gain"
 */
export function verdictOn(
  change: number,
  uncertainty: CombinedUncertainty | undefined,
  floor: number,
  same: boolean,
): Verdict {
  if (uncertainty === undefined) return "too few repeats";
  if (!(Math.abs(change) > uncertainty.expanded && Math.abs(change) > floor)) return "within repeatability";
  if (same) return change > 0 ? "clear gain" : "clear loss";
  return change > 0 ? "clearly higher" : "clearly lower";
}
