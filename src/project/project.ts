import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import type { JobWithHeads } from "../job/loaded-job.ts";

/** Everything a sheet is made from. */
export type Project = JobWithHeads & {
  /** Photos by their path as typed. */
  readonly images: ReadonlyMap<string, Uint8Array>;
  readonly logo?: Uint8Array;
  /** The folder that no path leaves. */
  readonly root: string;
};

/** What came of gathering. The project is there only when nothing is wrong. */
export type ProjectLoad = {
  readonly project?: Project;
  readonly diagnostics: readonly Diagnostic[];
  /** The texts that diagnostics point into. */
  readonly sources: ReadonlyMap<string, string>;
  /** Absolute paths of everything that was read, in order. */
  readonly filesRead: readonly string[];
  readonly shopFile?: string;
};
