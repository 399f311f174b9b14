import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import type { StageFacts } from "../inherit.ts";
import type { JobStage } from "../schema/job.ts";
import { SIDES } from "../schema/port.ts";
import type { JobRule, PortRuleInput, RuleInput } from "./rule.ts";

/** The ports that a job's stages state something about: what is only inherited was checked where it was stated. */
export const portsOf = (stages: readonly JobStage[], inherited: readonly StageFacts[]): readonly PortRuleInput[] =>
  stages.flatMap((stage, index) =>
    SIDES.flatMap((side): PortRuleInput[] => {
      const own = stage[side];
      const facts = inherited[index]?.[side];
      return own && facts ? [{ side, stage, path: ["stages", index, side], own, facts }] : [];
    }),
  );

/** A rule that asks the same of each port that is stated; nothing comes of one with which nothing is wrong. */
export const ofEachPort =
  (ask: (port: PortRuleInput, inHand: RuleInput) => readonly Diagnostic[] | undefined): JobRule =>
  (inHand) =>
    inHand.ports.flatMap((port) => ask(port, inHand) ?? []);
