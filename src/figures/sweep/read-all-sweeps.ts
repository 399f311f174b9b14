import { type Model, SIDES, type Side, type Stage } from "../../model/model.ts";
import { SAME_LIFT } from "../../units/same-lift.ts";
import { fullPorts, mainHand } from "./full-ports.ts";
import { headScatter } from "./head-scatter.ts";
import { isGood, readPoints } from "./point.ts";
import type { Reference } from "./reading-to-reference.ts";
import { readSweep, type Sweep } from "./sweep.ts";

/** A stage with its sweeps, those of the leading set as its own. */
export type FlowedStage = {
  readonly stage: Stage;
  readonly intake?: Sweep;
  readonly exhaust?: Sweep;
  /** Sweeps of each set, in the stage's order. */
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
  const readOne = (head: string, stage: Stage) => readHeadSweeps(head, [stage], reference)[0]!;
  return {
    stages: readHeadSweeps("", stages, reference),
    // By index, as two heads may share a label.
    compared: compared.map(({ stage }, k) => readOne(`compared ${k + 1}`, stage)),
    samples: samples.map(({ stage }, k) => readOne(`sample ${k + 1}`, stage)),
  };
}

/**
 * The sweeps of some stages of one head, whose scatter is pooled over these stages, and whose curves are of one hand.
 *
 *     `readSweep` of each stage, set and side
 *
 * @param head       distinguishes the heads of one computation
 * @param stages     the stages
 * @param reference  reference test pressure and air
 * @returns          the stages with their sweeps; without any for a stage that was not flowed
 * @example          readHeadSweeps("", [{ sets: [] }], {})[0].sets // []
 */
export function readHeadSweeps(head: string, stages: readonly Stage[], reference: Reference): FlowedStage[] {
  const scatter = headScatter(stages, reference);
  const [intake, exhaust] = SIDES.map((side) =>
    mainHand(stages.flatMap((stage) => leadingPorts(head, stage, side, reference))),
  );
  const hands = { intake, exhaust };
  return stages.map((stage) => {
    const sets = stage.sets.map((set) => {
      const read = (side: Side) => {
        const source = { head, stage, set, side };
        return readSweep(source, reference, scatter(source), hands[side]);
      };
      return { intake: read("intake"), exhaust: read("exhaust") };
    });
    return { stage, ...sets[0], sets };
  });
}

/** Full ports of the leading set of a stage. */
function leadingPorts(head: string, stage: Stage, side: Side, reference: Reference) {
  const set = stage.sets[0];
  return set === undefined ? [] : fullPorts(readPoints({ head, stage, set, side }, reference));
}

/**
 * The stages that were flowed on a side.
 *
 *     those with a good reading
 *
 * @param stages  the stages with their sweeps
 * @param side    intake or exhaust
 * @returns       the stages, in their order
 * @example       stagesFlowedOn([{ stage: {}, intake: { points: [] } }], "intake") // []
 */
export function stagesFlowedOn(stages: readonly FlowedStage[], side: Side): FlowedStage[] {
  return stages.filter((one) => one[side]?.points.some((point) => isGood(point) && point.lift > SAME_LIFT));
}
