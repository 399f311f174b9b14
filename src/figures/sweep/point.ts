import type { FlowSet, Reading, Run, Side, Stage } from "../../model/model.ts";
import type { CubicMetresPerSecond, Metres } from "../../units/quantity.ts";

/** Origin of a sweep. */
export type SweepSource = {
  /** Distinguishes the heads of one computation; empty for the job's own. */
  readonly head: string;
  readonly stage: Stage;
  /** One of the stage's sets. */
  readonly set: FlowSet;
  readonly side: Side;
  /** Index of the only run that is read; absent, all are. */
  readonly run?: number;
};

/**
 * Name of a sweep, made from what it is read from.
 *
 *     JSON of head, stage, index of the set, side and run
 *
 * @param source  origin of the sweep
 * @returns       the name; different for any two sweeps of one computation
 * @example       sweepName({ head: "", stage: { name: "Finished", sets: [] }, side: "intake" }) // '["","Finished",-1,"intake",null]'
 */
export function sweepName({ head, stage, set, side, run }: SweepSource): string {
  return JSON.stringify([head, stage.name, stage.sets.indexOf(set), side, run]);
}

/** One typed reading, with its run, at reference conditions. */
export type Point = {
  readonly port: string;
  readonly run: Run;
  readonly reading: Reading;
  readonly lift: Metres;
  readonly flow: CubicMetresPerSecond;
};

/**
 * Name of the port that a run measured: one hand of one cylinder.
 *
 *     cylinder, and hand if any
 *
 * @param run  the run
 * @returns    the name; equal for runs that are compared with each other
 * @example    portKey({ cylinder: 5, hand: "end" }) // "5 end"
 */
export function portKey(run: Run): string {
  return run.hand === undefined ? `${run.cylinder}` : `${run.cylinder} ${run.hand}`;
}
