import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import type { JobWithHeads } from "../job/loaded-job.ts";

/** A job with everything that its sheets are made from. */
export type Project = JobWithHeads & {
  /** Photos by path as typed. */
  readonly images: ReadonlyMap<string, Uint8Array>;
  readonly logo?: Uint8Array;
  /** The folder to which all paths are confined. */
  readonly root: string;
};

/** The result of loading; `project` is absent when there is an error. */
export type ProjectLoad = {
  readonly project?: Project;
  readonly diagnostics: readonly Diagnostic[];
  /** Texts to which diagnostics refer, by file name. */
  readonly sources: ReadonlyMap<string, string>;
  /** Absolute paths of all files read, in order. */
  readonly filesRead: readonly string[];
  readonly shopFile?: string;
};
