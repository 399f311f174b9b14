import type { Model, Side, Stage } from "../../model/model.ts";
import type { Reference } from "./reading-to-reference.ts";
import { readSweep, type Sweep } from "./sweep.ts";

/** A stage with its sweeps, those of the leading set as its own. */
export type FlowedStage = {
  readonly stage: Stage;
  readonly intake?: Sweep;
  readonly exhaust?: Sweep;
  /** Of each set, in the stage's order. */
  readonly sets: readonly Readonly<Record<Side, Sweep>>[];
};

/** All sweeps of a model, in the model's order. */
export type AllSweeps = {
  readonly stages: readonly FlowedStage[];
  readonly compared: readonly FlowedStage[];
  readonly samples: readonly FlowedStage[];
};

/**
 * Every sweep from which figures are computed and checked.
 *
 *     `readSweep` of each head, stage, set and side
 *
 * @param model  the model
 * @returns      the sweeps; the same for the same model
 * @example      readAllSweeps({ stages: [], compared: [], samples: [] }) // { stages: [], compared: [], samples: [] }
 */
export function readAllSweeps({ stages, compared, samples, reference }: Model): AllSweeps {
  return {
    stages: stages.map((stage) => readStageSweeps("", stage, reference)),
    // By index, as two heads may share a label.
    compared: compared.map(({ stage }, k) => readStageSweeps(`compared ${k + 1}`, stage, reference)),
    samples: samples.map(({ stage }, k) => readStageSweeps(`sample ${k + 1}`, stage, reference)),
  };
}

/**
 * The sweeps of one stage.
 *
 *     `readSweep` of each set and side
 *
 * @param head       distinguishes the heads of one computation
 * @param stage      the stage
 * @param reference  reference test pressure and air
 * @returns          the stage with its sweeps; without any for a stage that was not flowed
 * @example          readStageSweeps("", { sets: [] }, {}).sets // []
 */
export function readStageSweeps(head: string, stage: Stage, reference: Reference): FlowedStage {
  const sets = stage.sets.map((set) => ({
    intake: readSweep({ head, stage, set, side: "intake" }, reference),
    exhaust: readSweep({ head, stage, set, side: "exhaust" }, reference),
  }));
  return { stage, ...sets[0], sets };
}

/**
 * The stages that were flowed on a side.
 *
 *     those with a good reading
 *
 * @param stages  the stages with their sweeps
 * @param side    intake or exhaust
 * @returns       the stages, in their order
 * @example       stagesFlowedOn([{ stage: {}, intake: { good: [] } }], "intake") // []
 */
export function stagesFlowedOn(stages: readonly FlowedStage[], side: Side): FlowedStage[] {
  return stages.filter((one) => (one[side]?.good.length ?? 0) > 0);
}
