import { isClear } from "../../model/verdict.ts";
import { metres } from "../../units/quantity.ts";
import type { ChangeFigures } from "../figures.ts";
import { type Curve, curveAt } from "../math/pchip.ts";

/**
 * Lifts at which one curve passes the other, where significant: between two measured lifts that differ clearly,
 * and in opposite ways.
 *
 *     Q_to(L) = Q_from(L), between neighbouring clear changes of opposite sign
 *
 * @param from     flow against lift of the one [m³/s, m]
 * @param to       flow against lift of the other
 * @param changes  changes with their verdicts, lifts ascending
 * @returns        lifts [m], ascending; none where the curves do not clearly change places
 * @source         bisection, elementary
 * @example        crossovers({ x: [0, 2], y: [0, 2], d: [1, 1] }, { x: [0, 2], y: [0.5, 1.5], d: [0.5, 0.5] }, [{ lift_m: 0.5, change_m3_s: 0.25, verdict: "clear gain" }, { lift_m: 1.5, change_m3_s: -0.25, verdict: "clear loss" }]) // [1]
 */
export function crossovers(from: Curve, to: Curve, changes: readonly ChangeFigures[]): number[] {
  const clear = changes.filter((change) => isClear(change.verdict) && change.interpolated === undefined);
  return clear.slice(1).flatMap((right, k) => {
    const left = clear[k]!;
    if (left.change_m3_s * right.change_m3_s >= 0) return [];
    const sign = Math.sign(left.change_m3_s);
    let low = metres(left.lift_m);
    let high = metres(right.lift_m);
    for (let step = 0; step < 60; step++) {
      const middle = metres((low + high) / 2);
      const distance = curveAt(to, middle)! - curveAt(from, middle)!;
      if (distance * sign > 0) low = middle;
      else high = middle;
    }
    return [(low + high) / 2];
  });
}
