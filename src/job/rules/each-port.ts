import { inheritStages, type PortFacts, type PortSide } from "../inherit.ts";
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
export function eachPort({ job }: JobInHand): readonly PortInHand[] {
  const { stages } = job;
  if (stages === undefined) return [];
  if (latest?.stages !== stages) latest = { stages, ports: portsOf(stages) };
  return latest.ports;
}

/** Half a dozen rules ask for the same. */
let latest: { readonly stages: readonly JobStage[]; readonly ports: readonly PortInHand[] } | undefined;

function portsOf(stages: NonNullable<Job["stages"]>): readonly PortInHand[] {
  const inherited = inheritStages(stages);
  return stages.flatMap((stage, index) =>
    SIDES.flatMap((side) => {
      const [own, facts] = [stage[side], inherited[index]?.[side]];
      return own && facts ? [{ side, stage, path: ["stages", index, side] as const, own, facts }] : [];
    }),
  );
}
