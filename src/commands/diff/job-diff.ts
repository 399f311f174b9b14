import type { Comparison } from "../../figures/figures.ts";
import type { Side } from "../../model/model.ts";
import type { Kind } from "../../units/table.ts";

/** Changes from one job to another, in SI with the keys of `diff --json`. */
export type JobDiff = {
  from: { number: string; revision: number | string; title: string };
  to: { number: string; revision: number | string; title: string };
  /** Two revisions of one job, whose readings are compared one by one. */
  same_job: boolean;
  /** Test pressure of all figures: the second job's. */
  test_pressure_Pa: number;
  header: TextChange[];
  sizes: SizeChange[];
  stages: StageDiff[];
  /** Stages that only the second or first job has. */
  stages_added: string[];
  stages_removed: string[];
  /** Verdicts on two stages that differ between the two jobs. */
  verdicts: VerdictChange[];
  lines_added: JobLine[];
  lines_removed: JobLine[];
};

export type TextChange = { what: string; from?: string; to?: string };
/** A dimension; `stage` and `side` where it belongs to one. */
export type SizeChange = { what: string; stage?: string; side?: Side; kind: Kind; from?: number; to?: number };
export type ReadingChange = {
  side: Side;
  cylinder: number;
  lift_m: number;
  /** As read at the bench, with marks. */
  from: { flow_m3_s?: number; kind: string }[];
  to: { flow_m3_s?: number; kind: string }[];
};
export type StageDiff = {
  from: string;
  to: string;
  /** Unlike conditions, in words. */
  unlike: string[];
  readings: ReadingChange[];
  /** One for each side that both flowed; without a verdict of gain or loss, as two jobs are not one port before and after. */
  figures: Comparison[];
};
export type VerdictChange = {
  side: Side;
  from_stage: string;
  to_stage: string;
  from?: StageVerdict;
  to?: StageVerdict;
};
export type StageVerdict = { verdict: string; ratio: number; uncertainty_ratio?: number };
export type JobLine = { list: string; text: string };
