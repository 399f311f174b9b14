import { distinctLifts } from "../../figures/math/lifts.ts";
import { type FlowSet, type Reading, SIDES, type Side } from "../../model/model.ts";
import { sameLift } from "../../units/same-lift.ts";
import type { ReadingChange } from "./job-diff.ts";

/** Relative tolerance: the rounding of a unit conversion. */
const TOLERANCE = 1e-6;

/** Readings of the leading set that differ, by lift, as read at the bench. */
export function readingChanges(a: FlowSet | undefined, b: FlowSet | undefined): ReadingChange[] {
  return SIDES.flatMap((side) =>
    listCylinders([a, b]).flatMap((cylinder) => {
      const [before, after] = [readingsOf(a, side, cylinder), readingsOf(b, side, cylinder)];
      return distinctLifts([...before, ...after].map(({ lift }) => lift)).flatMap((lift) => {
        const [from, to] = [before, after].map((all) => all.filter((one) => sameLift(one.lift, lift))) as [
          Reading[],
          Reading[],
        ];
        return sameReadings(from, to)
          ? []
          : [{ side, cylinder, lift_m: lift, from: from.map(summarizeReading), to: to.map(summarizeReading) }];
      });
    }),
  );
}

const listCylinders = (sets: readonly (FlowSet | undefined)[]): number[] =>
  [...new Set(sets.flatMap((set) => set?.runs.map((run) => run.cylinder) ?? []))].toSorted((x, y) => x - y);

const readingsOf = (set: FlowSet | undefined, side: Side, cylinder: number): readonly Reading[] =>
  (set?.runs ?? []).filter((run) => run.cylinder === cylinder).flatMap((run) => run.readings[side]);

const summarizeReading = ({ flow, kind }: Reading) => ({ ...(flow !== undefined && { flow_m3_s: flow }), kind });

function sameReadings(from: readonly Reading[], to: readonly Reading[]): boolean {
  return (
    from.length === to.length &&
    from.every((one, k) => {
      const other = to[k]!;
      if (one.kind !== other.kind || (one.flow === undefined) !== (other.flow === undefined)) return false;
      return Math.abs((one.flow ?? 0) - (other.flow ?? 0)) <= TOLERANCE * Math.abs(one.flow ?? 0);
    })
  );
}
