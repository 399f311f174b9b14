import type { SourceDocument } from "../parse/yaml/source-document.ts";
import type { RunInJob, RunTable } from "./readings/run-tables.ts";
import type { Job } from "./schema/job.ts";
import type { DeclaredUnits } from "./schema/quantities.ts";
import type { ShopFile } from "./schema/shop.ts";

/** A job with its shop and all its readings. */
export type LoadedJob = {
  /** Its name in messages, and the key of its text in `sources`. */
  readonly file: string;
  readonly job: Job;
  readonly located: SourceDocument;
  readonly shop?: ShopFile;
  readonly shopFile?: string;
  readonly shopLocated?: SourceDocument;
  readonly units: DeclaredUnits;
  readonly runs: readonly RunInJob[];
  readonly tables: readonly RunTable[];
};

/** A stage of another job that this one draws or is compiled from. */
export type StageOnFile = { readonly from: LoadedJob; readonly stage: number };
export type ComparedStage = StageOnFile & {
  readonly label: string;
  /** It is a head of this job's own customer, who may read its ticket, stamp and date. */
  readonly sameCustomer?: true;
};

/** A job with the other heads it names: the input of a model. */
export type JobWithHeads = LoadedJob & {
  readonly compared: readonly ComparedStage[];
  readonly samples: readonly StageOnFile[];
};
