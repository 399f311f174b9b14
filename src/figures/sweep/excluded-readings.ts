import { sameLift } from "../../units/same-lift.ts";
import type { SideFigures } from "../figures.ts";
import { readingToReference } from "./reading-to-reference.ts";
import type { Sweep } from "./sweep.ts";

/**
 * Readings that were typed and take no part: struck out, each with its value at reference conditions and its reason, and
 * missing, once a lift, where no other reading stands at that lift.
 *
 *     the list, lifts ascending
 *
 * @param sweep  the sweep of one set and side
 * @returns      the list; empty when all were read
 * @source       common practice: what is left out is said, with the reason
 * @example      excludedReadings({ shown: [], source: { side: "intake", set: { runs: [{ readings: { intake: [{ lift: 0.01, kind: "missing", reason: "smudged" }] } }] } } }) // [{ lift_m: 0.01, kind: "missing", reason: "smudged" }]
 */
export function excludedReadings({ source, reference, shown }: Sweep): SideFigures["left_out"] {
  const { side, set } = source;
  const all = set.runs.flatMap((run) =>
    run.readings[side].flatMap(({ lift, kind, flow, pressure, reason }): ExcludedReading[] => {
      const why = reason === undefined ? {} : { reason };
      if (kind === "struck out") {
        const value =
          flow === undefined ? {} : { value_m3_s: readingToReference(flow, run.bench, side, pressure, reference) };
        return [{ lift_m: lift, kind, ...value, ...why }];
      }
      if (kind !== "missing" || shown.some((mean) => sameLift(mean.lift, lift))) return [];
      return [{ lift_m: lift, kind, ...why }];
    }),
  );
  // Lift first, then a reason before none, so that the order of the runs does not matter.
  const sorted = all.sort((a, b) => a.lift_m - b.lift_m || sortKey(a).localeCompare(sortKey(b), "en"));
  return sorted.filter((one, k) => {
    const twice = (other: ExcludedReading) => other.kind === "missing" && sameLift(other.lift_m, one.lift_m);
    return one.kind !== "missing" || !sorted.slice(0, k).some(twice);
  });
}

type ExcludedReading = SideFigures["left_out"][number];

const sortKey = ({ kind, value_m3_s = 0, reason }: ExcludedReading) =>
  `${kind} ${reason === undefined ? 1 : 0} ${reason ?? ""} ${value_m3_s}`;
