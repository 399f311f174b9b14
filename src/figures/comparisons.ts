import { type Model, SIDES, type Side, type Stage } from "../model/model.ts";
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
    const sweeps = flowed.flatMap((one) => (hasReadings(one[side]) ? [one[side]] : []));
    const frame: ComparisonFrame = {
      reference: model.reference,
      units: model.units,
      lifts: frames[side].lifts,
      netLift: model.engine?.cams[side]?.netLift,
      floor: repeatFloor(sweeps, model.reference),
    };
    return pairs(model, sweeps, side).map((pair) => compareSweeps(pair, frame));
  });
}

function pairs(model: Model, sweeps: readonly Sweep[], side: Side): Pair[] {
  const own = sweeps.filter((sweep) => sweep.source.stage.repeats === undefined);
  const first = own[0];
  const last = own[own.length - 1];
  if (first === undefined || last === undefined) return [];
  const steps = own.slice(1).map((to, k): Pair => ({ from: own[k]!, to, side, same: true }));
  const whole: Pair[] = own.length > 2 ? [{ from: first, to: last, side, same: true }] : [];
  const others = model.compared.flatMap(({ label, stage }): Pair[] => {
    const sweep = leadingSweep(model, stage, side, label);
    return hasReadings(sweep) ? [{ from: sweep, to: last, side, same: false, fromLabel: label }] : [];
  });
  return [...steps, ...whole, ...others];
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
