import type { Path } from "../../parse/yaml/source-document.ts";
import type { JobBench } from "../schema/job.ts";

/** One sweep of a stage, wherever it was typed. */
export type RunInJob = {
  readonly stage: number;
  /** Index in `runs`; undefined for the short form. */
  readonly run: number | undefined;
  readonly path: Path;
  /** Shop < job < stage < run. */
  readonly bench: JobBench;
  readonly file?: string;
  readonly flow?: string;
};
