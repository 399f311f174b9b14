import type { Metres } from "../../units/quantity.ts";
import { NO_FLOW } from "../constants.ts";
import type { CombinedUncertainty } from "../math/uncertainty.ts";
import { benchKey } from "../sweep/point.ts";
import type { Sweep } from "../sweep/sweep.ts";
import { uncertaintyOfDifference } from "../sweep/sweep-uncertainty.ts";
import { type FlowAt, flowAt } from "./compared-flows.ts";

/** Change of flow between two sweeps. */
export type FlowChange = {
  readonly before: FlowAt;
  readonly after: FlowAt;
  /** [m³/s] */
  readonly change: number;
  /** Absent where no repeatability is known, or the accuracy is not. */
  readonly combined?: CombinedUncertainty;
  /** Benches or ranges meet whose accuracy is not stated: their errors do not cancel, and nobody knows them. */
  readonly unknownAccuracy: boolean;
};

/**
 * Change from a flow of one sweep to one of another.
 *
 *     Q_after − Q_before
 *
 * @param from    the one sweep
 * @param before  its flow
 * @param to      the other
 * @param after   its flow
 * @returns       the change with its combined uncertainty, if known
 * @source        JCGM 100:2008 (GUM), 5.2
 * @example       flowChange({ source: { set: { bench: {} } } }, { flow: 2, ranges: ["1"] }, { source: { set: { bench: {} } } }, { flow: 3, ranges: ["2"] }).unknownAccuracy // true
 */
export function flowChange(from: Sweep, before: FlowAt, to: Sweep, after: FlowAt): FlowChange {
  const unknownAccuracy = isAccuracyUnknown([...before.ranges, ...after.ranges], from, to);
  const combined = unknownAccuracy ? undefined : uncertaintyOfDifference(after.terms, before.terms);
  return { before, after, change: after.flow - before.flow, ...(combined && { combined }), unknownAccuracy };
}

/**
 * Whether readings of two benches, or of two ranges, meet in one number while the accuracy of either bench is not stated.
 *
 *     more than one bench or range, and an accuracy missing
 *
 * @param ranges  names of the ranges
 * @param from    the one sweep
 * @param to      the other; the same for a number within one sweep
 * @returns       true where nothing can be said of what the benches or ranges differ by
 * @source        JCGM 100:2008 (GUM), 5.2
 * @example       isAccuracyUnknown(["1", "1"], { source: { set: { bench: {} } } }, { source: { set: { bench: {} } } }) // false
 */
export function isAccuracyUnknown(ranges: readonly string[], from: Sweep, to: Sweep): boolean {
  const benches = [from.source.set.bench, to.source.set.bench];
  const several = new Set(ranges).size > 1 || new Set(benches.map(benchKey)).size > 1;
  return several && benches.some(({ accuracy }) => accuracy === undefined);
}

/**
 * Change of flow at a lift.
 *
 *     Q_to(L) − Q_from(L)
 *
 * @param from  the one sweep
 * @param to    the other
 * @param lift  L [m]
 * @returns     the change; undefined where one was not read so far, or the first passes nothing
 * @source      JCGM 100:2008 (GUM), 5.2
 * @example     changeAt({ good: [] }, { good: [] }, 0.01) // undefined
 */
export function changeAt(from: Sweep, to: Sweep, lift: Metres): FlowChange | undefined {
  const before = flowAt(from, lift);
  const after = flowAt(to, lift);
  if (before === undefined || after === undefined || !(before.flow > NO_FLOW)) return undefined;
  return flowChange(from, before, to, after);
}
