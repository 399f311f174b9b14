import type { SideFigures } from "./figures.ts";
import { sameLift } from "./lifts.ts";
import { type Reference, readingToReference } from "./reading-to-reference.ts";
import type { Sweep } from "./sweep.ts";

/**
 * Readings that were typed and take no part: struck out, each with its value at reference conditions and its reason, and
 * missing, once a lift, where no other reading stands at that lift.
 *
 *     the list, lifts ascending
 *
 * @param sweep      the sweep of one set and side
 * @param reference  reference test pressure and air
 * @returns          the list; empty when all were read
 * @source           common practice: what is left out is said, with the reason
 * @example          leftOut({ shown: [], source: { side: "intake", set: { runs: [{ readings: { intake: [{ lift: 0.01, kind: "missing", reason: "smudged" }] } }] } } }, {}) // [{ lift_m: 0.01, kind: "missing", reason: "smudged" }]
 */
export function leftOut(sweep: Sweep, reference: Reference): SideFigures["left_out"] {
  const { side, set } = sweep.source;
  const list: SideFigures["left_out"] = [];
  for (const run of set.runs) {
    for (const { lift, kind, flow, pressure, reason } of run.readings[side]) {
      const why = reason === undefined ? {} : { reason };
      if (kind === "struck out") {
        const value =
          flow === undefined ? {} : { value_m3_s: readingToReference(flow, run.bench, side, pressure, reference) };
        list.push({ lift_m: lift, kind, ...value, ...why });
      }
      if (kind !== "missing" || sweep.shown.some((mean) => sameLift(mean.lift, lift))) continue;
      const known = list.find((one) => one.kind === "missing" && sameLift(one.lift_m, lift));
      if (known === undefined) list.push({ lift_m: lift, kind, ...why });
      else if (known.reason === undefined && reason !== undefined) known.reason = reason;
    }
  }
  return list.sort((a, b) => a.lift_m - b.lift_m);
}
