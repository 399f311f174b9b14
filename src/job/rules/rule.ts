import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import type { SourceDocument } from "../../parse/yaml/source-document.ts";
import { fromSi } from "../../units/convert.ts";
import type { PortFacts, PortSide, StageFacts } from "../inherit.ts";
import type { Job, JobBench, JobPort, JobStage } from "../schema/job.ts";
import { SIDES } from "../schema/port.ts";
import type { DeclaredUnits } from "../schema/quantities.ts";
import type { ShopFile } from "../schema/shop.ts";

/** A job to be checked for what the schema cannot express. */
export type RuleInput = {
  readonly job: Job;
  readonly located: SourceDocument;
  readonly units: DeclaredUnits;
  /** The shop's bench; the job's own keys win over it. */
  readonly shopBench?: JobBench;
  /** The stages after inheritance, and the ports about which they state something. */
  readonly inherited: readonly StageFacts[];
  readonly ports: readonly PortRuleInput[];
};

/** A port of a stage: as stated there, and after inheritance. */
type PortRuleInput = {
  readonly side: PortSide;
  readonly stage: JobStage;
  readonly path: readonly [string, number, PortSide];
  readonly own: JobPort;
  readonly facts: PortFacts;
};

export type JobRule = (input: RuleInput) => readonly Diagnostic[];

type ShopRuleInput = { readonly shop: ShopFile; readonly located: SourceDocument };
export type ShopRule = (input: ShopRuleInput) => readonly Diagnostic[];

/** The ports about which a job's stages state something: what is only inherited was checked where it was stated. */
export const portsOf = (stages: readonly JobStage[], inherited: readonly StageFacts[]): readonly PortRuleInput[] =>
  stages.flatMap((stage, index) =>
    SIDES.flatMap((side): PortRuleInput[] => {
      const own = stage[side];
      const facts = inherited[index]?.[side];
      return own && facts ? [{ side, stage, path: ["stages", index, side], own, facts }] : [];
    }),
  );

/** A rule that checks each port on its own; `check` may return nothing for a valid one. */
export const ofEachPort =
  (check: (port: PortRuleInput, input: RuleInput) => readonly Diagnostic[] | undefined): JobRule =>
  (input) =>
    input.ports.flatMap((port) => check(port, input) ?? []);

/** A length for a message, in the unit that the job is typed in. */
export function showLength(value: number, units: DeclaredUnits): string {
  const unit = units.length ?? "mm";
  const decimals = unit === "in" || unit === "cm" ? 3 : unit === "thou" ? 0 : 2;
  return `${fromSi(value, "length", unit).toFixed(decimals)} ${unit}`;
}
