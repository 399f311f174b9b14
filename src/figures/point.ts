import type { FlowSet, Reading, Run, Side, Stage } from "../model/model.ts";

/** Where a sweep comes from: `head` tells heads of one comparison apart. */
export type SweepSource = { readonly head: string; readonly stage: Stage; readonly set: FlowSet; readonly side: Side };

/** One typed reading, with its run, at reference conditions. */
export type Point = {
  readonly port: string;
  readonly run: Run;
  readonly reading: Reading;
  readonly lift: number;
  readonly flow: number;
};

/**
 * Name of the port that a run measured: one hand of one cylinder.
 *
 *     cylinder, and hand if any
 *
 * @param run  the run
 * @returns    the name; equal for runs that are compared with each other
 * @source     definition
 * @example    portKey({ cylinder: 5, hand: "end" }) // "5 end"
 */
export function portKey(run: Run): string {
  return run.hand === undefined ? `${run.cylinder}` : `${run.cylinder} ${run.hand}`;
}
