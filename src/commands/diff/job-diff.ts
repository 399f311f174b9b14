import type { Comparison } from "../../figures/figures.ts";
import type { Side } from "../../model/model.ts";
import type { Kind } from "../../units/table.ts";

/** What changed from one job to another: SI, keys as `diff --json` prints them. Empty lists where nothing did. */
export type JobDiff = {
  from: { number: string; revision: number | string; title: string };
  to: { number: string; revision: number | string; title: string };
  /** Two revisions of one job: then readings are held against each other one by one. */
  same_job: boolean;
  /** All figures are at this pressure: the second job's. */
  test_pressure_Pa: number;
  header: TextChange[];
  sizes: SizeChange[];
  stages: StageDiff[];
  /** Stages that only one of them has. */
  stages_added: string[];
  stages_removed: string[];
  /** Verdicts within each job, stage to stage, that are not what they were. */
  verdicts: VerdictChange[];
  lines_added: Line[];
  lines_removed: Line[];
};

export type TextChange = { what: string; from?: string; to?: string };
/** A dimension; `stage` and `side` where it belongs to one. */
export type SizeChange = { what: string; stage?: string; side?: Side; kind: Kind; from?: number; to?: number };
export type ReadingChange = {
  side: Side;
  cylinder: number;
  lift_m: number;
  /** As read at the bench, with any mark. */
  from: { flow_m3_s?: number; kind: string }[];
  to: { flow_m3_s?: number; kind: string }[];
};
export type StageDiff = {
  from: string;
  to: string;
  /** How the two were measured unlike, in words. */
  unlike: string[];
  readings: ReadingChange[];
  /** One a side that both flowed; never a gain or loss: these are two jobs, not one port before and after. */
  figures: Comparison[];
};
export type VerdictChange = { side: Side; from_stage: string; to_stage: string; from?: OwnChange; to?: OwnChange };
export type OwnChange = { verdict: string; ratio: number; uncertainty_ratio?: number };
export type Line = { list: string; text: string };
