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
