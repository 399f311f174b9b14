import { sameLift } from "../../units/same-lift.ts";
import type { SideFigures } from "../figures.ts";
import { isGood, portKey } from "./point.ts";
import { readingToReference } from "./reading-to-reference.ts";
import type { Sweep } from "./sweep.ts";

/**
 * Readings that were typed and take no part: struck out, each with its value at reference conditions and its reason, and
 * missing, once a lift, where no other reading stands at that lift, or once a port and lift with a reason, where none of that
 * port does; doubtful where a good one of that port does. Each names its port where several were flowed.
 *
 *     the list, lifts ascending
 *
 * @param sweep  the sweep of one set and side
 * @returns      the list; empty when all were read
 * @source       common practice: what is left out is said, with the reason
 * @example      excludedReadings({ points: [], source: { side: "intake", set: { runs: [{ readings: { intake: [{ lift: 0.01, kind: "missing", reason: "smudged" }] } }] } } }) // [{ lift_m: 0.01, kind: "missing", reason: "smudged" }]
 */
export function excludedReadings({ source, reference, points }: Sweep): SideFigures["left_out"] {
  const { side, set } = source;
  const isSingle = new Set(set.runs.map(portKey)).size < 2;
  const all = set.runs.flatMap((run) => {
    const port = isSingle ? {} : { cylinder: run.cylinder, ...(run.hand === undefined ? {} : { hand: run.hand }) };
    return run.readings[side].flatMap(({ lift, kind, flow, pressure, reason }): ExcludedReading[] => {
      const why = reason === undefined ? {} : { reason };
      const here = points.filter((point) => sameLift(point.lift, lift));
      const ofPort = here.filter((point) => point.port === portKey(run));
      if (kind === "struck out" || (kind === "doubtful" && ofPort.some(isGood))) {
        const value =
          flow === undefined ? {} : { value_m3_s: readingToReference(flow, run.bench, side, pressure, reference) };
        return [{ ...port, lift_m: lift, kind, ...value, ...why }];
      }
      const isRead = (reason === undefined ? here : ofPort).length > 0;
      if (kind !== "missing" || isRead) return [];
      return [{ ...(reason === undefined ? {} : port), lift_m: lift, kind, ...why }];
    });
  });
  // Lift first, then a reason before none, so that the order of the runs does not matter.
  const sorted = all.sort((a, b) => a.lift_m - b.lift_m || sortKey(a).localeCompare(sortKey(b), "en"));
  return sorted.filter((one, k) => {
    const twice = (other: ExcludedReading) =>
      other.kind === "missing" && sameLift(other.lift_m, one.lift_m) && isOfPort(one, other);
    return one.kind !== "missing" || !sorted.slice(0, k).some(twice);
  });
}

type ExcludedReading = SideFigures["left_out"][number];

/** A missing reading without a port is of them all. */
const isOfPort = (one: ExcludedReading, other: ExcludedReading) =>
  one.cylinder === undefined || (one.cylinder === other.cylinder && one.hand === other.hand);

const sortKey = ({ kind, cylinder = 0, hand = "", value_m3_s = 0, reason }: ExcludedReading) =>
  `${kind} ${reason === undefined ? 1 : 0} ${cylinder} ${hand} ${reason ?? ""} ${value_m3_s}`;
