import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import type { Located } from "../../source/located.ts";
import type { Job, JobBench } from "../schema/job.ts";
import type { DeclaredUnits } from "../schema/quantities.ts";
import type { ShopFile } from "../schema/shop.ts";

/** A job to be checked for what the schema cannot see. */
export type JobInHand = {
  readonly job: Job;
  readonly located: Located;
  readonly units: DeclaredUnits;
  /** What the shop says of its bench: the job's own keys win. */
  readonly shopBench?: JobBench;
};
export type JobRule = (inHand: JobInHand) => readonly Diagnostic[];

export type ShopInHand = { readonly shop: ShopFile; readonly located: Located };
export type ShopRule = (inHand: ShopInHand) => readonly Diagnostic[];
