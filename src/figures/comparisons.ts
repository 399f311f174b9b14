import { type Model, SIDES, type Side, type Stage } from "../model/model.ts";
import { type BothSides, columnsSwapped } from "./columns-swapped.ts";
import { type ComparisonFrame, compareSweeps, type Pair } from "./comparison.ts";
import type { Comparison } from "./figures.ts";
import { repeatFloor } from "./repeat-floor.ts";
import type { SideFrame } from "./side-figures.ts";
import type { FlowedStage } from "./stage-figures.ts";
import { readSweep, type Sweep } from "./sweep.ts";

/**
 * All comparisons of a job, side by side: each stage with the one before, the last with the first when there are more than
 * two, and the last with each other head. Only stages flowed on that side count; one that measures another again enters no
 * pair, and its distance from that one is the floor under every verdict.
 *
 *     pairs, then their changes
 *
 * @param model   the model
 * @param flowed  every stage with its leading sweeps, oldest first
 * @param frames  what each side has in common over the job's stages
 * @returns       the comparisons, intake first
 * @example       compareStages({ stages: [], compared: [] }, [], { intake: { lifts: [] }, exhaust: { lifts: [] } }) // []
 */
export function compareStages(
  model: Model,
  flowed: readonly FlowedStage[],
  frames: Readonly<Record<Side, SideFrame>>,
): Comparison[] {
  return SIDES.flatMap((side) => {
    const sweeps = flowedOn(flowed, side);
    const frame: ComparisonFrame = {
      reference: model.reference,
      units: model.units,
      lifts: frames[side].lifts,
      netLift: model.engine?.cams[side]?.netLift,
      floor: repeatFloor(sweeps, model.reference),
    };
    return [...ownPairs(sweeps, side), ...otherPairs(model, sweeps, side)].map((pair) =>
      compareSweeps(looked(model, pair), frame),
    );
  });
}

/**
 * Leading sweeps of the stages that were flowed on a side.
 *
 *     those with a good reading
 *
 * @param flowed  every stage with its leading sweeps
 * @param side    intake or exhaust
 * @returns       the sweeps, in the order of the stages
 * @source        definition
 * @example       flowedOn([{ stage: {}, intake: { good: [] } }], "intake") // []
 */
export function flowedOn(flowed: readonly FlowedStage[], side: Side): Sweep[] {
  return flowed.map((one) => one[side]).filter(hasReadings);
}

/** The job's own pairs: stage to stage, and the whole way where there are more than two. */
function ownPairs(sweeps: readonly Sweep[], side: Side): Pair[] {
  const own = sweeps.filter((sweep) => sweep.source.stage.repeats === undefined);
  const steps = own.slice(1).map((to, k): Pair => ({ from: own[k]!, to, side, same: true }));
  const whole: Pair[] = own.length > 2 ? [{ from: own[0]!, to: own[own.length - 1]!, side, same: true }] : [];
  return [...steps, ...whole];
}

/** The last stage with each other head. */
function otherPairs(model: Model, sweeps: readonly Sweep[], side: Side): Pair[] {
  const last = sweeps.findLast((sweep) => sweep.source.stage.repeats === undefined);
  if (last === undefined) return [];
  return model.compared.flatMap(({ label, stage }): Pair[] => {
    const sweep = leadingSweep(model, stage, side, label);
    return hasReadings(sweep) ? [{ from: sweep, to: last, side, same: false, fromLabel: label }] : [];
  });
}

/** The pair, and whether the columns of one look swapped. */
function looked(model: Model, pair: Pair): Pair {
  const { from, to, side, same, fromLabel, toLabel } = pair;
  const swapped = columnsSwapped(bothSides(model, from.source), bothSides(model, to.source));
  return { from, to, side, same, fromLabel, toLabel, swapped };
}

/** A stage with its leading sweep of either side. */
function bothSides(model: Model, { stage, head }: Sweep["source"]): BothSides {
  return {
    ports: stage.ports,
    intake: leadingSweep(model, stage, "intake", head),
    exhaust: leadingSweep(model, stage, "exhaust", head),
  };
}

function hasReadings(sweep: Sweep | undefined): sweep is Sweep {
  return sweep !== undefined && sweep.good.length > 0;
}

/**
 * Leading sweep of a stage on one side.
 *
 *     the first set's readings
 *
 * @param model  reference test pressure and air
 * @param stage  the stage
 * @param side   intake or exhaust
 * @param head   tells heads of one comparison apart; empty for the job's own
 * @returns      the sweep, or undefined for a stage that was not flowed
 * @example      leadingSweep({}, { sets: [] }, "intake", "") // undefined
 */
export function leadingSweep(model: Model, stage: Stage, side: Side, head: string): Sweep | undefined {
  const set = stage.sets[0];
  return set === undefined ? undefined : readSweep({ head, stage, set, side }, model.reference);
}
