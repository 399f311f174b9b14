import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import type { SourceDocument } from "../../parse/yaml/source-document.ts";
import type { PortFacts, PortSide, StageFacts } from "../inherit.ts";
import type { Job, JobBench, JobPort, JobStage } from "../schema/job.ts";
import type { DeclaredUnits } from "../schema/quantities.ts";
import type { ShopFile } from "../schema/shop.ts";

/** A job to be checked for what the schema cannot see. */
export type RuleInput = {
  readonly job: Job;
  readonly located: SourceDocument;
  readonly units: DeclaredUnits;
  /** What the shop says of its bench: the job's own keys win. */
  readonly shopBench?: JobBench;
  /** Its stages after inheritance, and the ports that they state something about. */
  readonly inherited: readonly StageFacts[];
  readonly ports: readonly PortRuleInput[];
};

/** A port of a stage: as stated there, and as it stands after inheritance. */
export type PortRuleInput = {
  readonly side: PortSide;
  readonly stage: JobStage;
  readonly path: readonly [string, number, PortSide];
  readonly own: JobPort;
  readonly facts: PortFacts;
};

export type JobRule = (inHand: RuleInput) => readonly Diagnostic[];

export type ShopInHand = { readonly shop: ShopFile; readonly located: SourceDocument };
export type ShopRule = (inHand: ShopInHand) => readonly Diagnostic[];
