import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { inheritStages, type PortFacts, type PortSide } from "../inherit.ts";
import { asLast } from "../remembered.ts";
import type { Job, JobPort, JobStage } from "../schema/job.ts";
import { SIDES } from "../schema/port.ts";
import type { JobInHand, JobRule } from "./rule.ts";

/** A port of a stage: as stated there, and as it stands after inheritance. */
export type PortInHand = {
  readonly side: PortSide;
  readonly stage: JobStage;
  readonly path: readonly [string, number, PortSide];
  readonly own: JobPort;
  readonly facts: PortFacts;
};

/** The ports that a job's stages state something about: what is only inherited was checked where it was stated. */
const portsOf = asLast((stages: NonNullable<Job["stages"]>): readonly PortInHand[] => {
  const inherited = inheritStages(stages);
  const ports: PortInHand[] = [];
  stages.forEach((stage, index) => {
    for (const side of SIDES) {
      const own = stage[side];
      const facts = inherited[index]?.[side];
      if (own && facts) ports.push({ side, stage, path: ["stages", index, side], own, facts });
    }
  });
  return ports;
});

/** A rule that asks the same of each port that is stated; nothing comes of one with which nothing is wrong. */
export const ofEachPort =
  (ask: (port: PortInHand, inHand: JobInHand) => readonly Diagnostic[] | undefined): JobRule =>
  (inHand) => {
    const faults: Diagnostic[] = [];
    for (const port of inHand.job.stages ? portsOf(inHand.job.stages) : []) {
      const found = ask(port, inHand);
      if (found !== undefined) faults.push(...found);
    }
    return faults;
  };
