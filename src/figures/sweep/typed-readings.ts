import type { TypedReading } from "../figures.ts";
import { readingToReference } from "./reading-to-reference.ts";
import type { Sweep } from "./sweep.ts";

/**
 * Every reading of a set and side as it was typed, at reference conditions, whatever becomes of it.
 *
 *     Q_ref of each reading, see `readingToReference`
 *
 * @param sweep  the sweep of one set and side
 * @returns      the readings, lifts ascending, of one lift by cylinder, hand and mount, else in the order of the runs
 * @source       common practice: no reading vanishes
 * @example      typedReadings({ source: { side: "intake", set: { runs: [{ cylinder: 2, mount: 1, readings: { intake: [{ lift: 0.01, kind: "missing" }] } }] } } }) // [{ cylinder: 2, mount: 1, lift_m: 0.01, kind: "missing" }]
 */
export function typedReadings({ source, reference }: Pick<Sweep, "source" | "reference">): TypedReading[] {
  const { side, set } = source;
  const all = set.runs.flatMap((run) =>
    run.readings[side].map(({ lift, kind, flow, pressure }): TypedReading => {
      const isRead = flow !== undefined && kind !== "missing";
      return {
        cylinder: run.cylinder,
        ...(run.hand === undefined ? {} : { hand: run.hand }),
        mount: run.mount,
        lift_m: lift,
        ...(isRead ? { flow_m3_s: readingToReference(flow, run.bench, side, pressure, reference) } : {}),
        kind,
      };
    }),
  );
  return all.sort(
    (a, b) =>
      a.lift_m - b.lift_m ||
      a.cylinder - b.cylinder ||
      (a.hand ?? "").localeCompare(b.hand ?? "", "en") ||
      a.mount - b.mount,
  );
}
