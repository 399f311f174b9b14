import { inheritStages, type PortFacts, type PortSide } from "../inherit.ts";
import { asLast } from "../remembered.ts";
import type { Job, JobPort, JobStage } from "../schema/job.ts";
import type { JobInHand } from "./rule.ts";
import { SIDES } from "./rule.ts";

/** A port of a stage: as stated there, and as it stands after inheritance. */
export type PortInHand = {
  readonly side: PortSide;
  readonly stage: JobStage;
  readonly path: readonly [string, number, PortSide];
  readonly own: JobPort;
  readonly facts: PortFacts;
};

/** The ports that a job's stages state something about: what is only inherited was checked where it was stated. */
export const eachPort = ({ job }: JobInHand): readonly PortInHand[] => (job.stages ? portsOf(job.stages) : []);

const portsOf = asLast((stages: NonNullable<Job["stages"]>): readonly PortInHand[] => {
  const inherited = inheritStages(stages);
  return stages.flatMap((stage, index) =>
    SIDES.flatMap((side) => {
      const [own, facts] = [stage[side], inherited[index]?.[side]];
      return own && facts ? [{ side, stage, path: ["stages", index, side] as const, own, facts }] : [];
    }),
  );
});
