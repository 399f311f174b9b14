import type { Model, Side, Stage } from "../../model/model.ts";
import { engineFigures } from "../engine/engine-figures.ts";
import type { SetFigures, SetSideFigures, StageFigures } from "../figures.ts";
import { chamberFigures } from "../geometry/chamber-figures.ts";
import { springFigures } from "../geometry/spring-figures.ts";
import { distinctConditions } from "../sweep/conditions.ts";
import type { FlowedStage } from "../sweep/read-all-sweeps.ts";
import { valveTrainFigures } from "../valve-train/valve-train-figures.ts";
import { exhaustToIntake } from "./exhaust-to-intake.ts";
import { type SideBasis, setSideFigures, sideFigures } from "./side-figures.ts";

/**
 * All figures of one stage.
 *
 *     see each part
 *
 * @param model       the model
 * @param flowed      the stage and its sweeps
 * @param bases      values that the job's stages share on each side
 * @param asDelivered whether this is the delivered stage, to which the springs belong
 * @returns           the figures
 * @example           stageFigures({}, { stage: { name: "As received", ports: {}, chambers: [], sets: [] }, sets: [] }, { intake: { ideal: {} }, exhaust: { ideal: {} } }, false).name // "As received"
 */
export function stageFigures(
  model: Model,
  flowed: FlowedStage,
  bases: Readonly<Record<Side, SideBasis>>,
  asDelivered: boolean,
): StageFigures {
  const { stage } = flowed;
  const intake = sideFigures(model, stage, flowed.intake, "intake", bases.intake);
  const exhaust = sideFigures(model, stage, flowed.exhaust, "exhaust", bases.exhaust);
  const springs = asDelivered ? springFigures(model.text, model.engine) : undefined;
  const valveTrain = valveTrainFigures(stage.valveTrain, model.text);
  const engine = engineFigures(model, stage.ports.intake, flowed.intake, bases.intake.ideal.intake);
  return {
    name: stage.name,
    ...(stage.repeats === undefined ? {} : { repeats: stage.repeats }),
    ...(stage.date === undefined ? {} : { date: stage.date }),
    ...(stage.sets[0] === undefined ? {} : { set: stage.sets[0].name }),
    ...(intake === undefined ? {} : { intake }),
    ...(exhaust === undefined ? {} : { exhaust }),
    sets: flowed.sets.slice(1).map((sweeps) => setFigures(model, stage, sweeps, bases.intake)),
    exhaust_to_intake: exhaustToIntake(stage.ports, flowed.intake, flowed.exhaust),
    ...chamberFigures(stage, model.engine),
    ...(springs === undefined ? {} : { springs }),
    ...(valveTrain === undefined ? {} : { valve_train: valveTrain }),
    ...(engine === undefined ? {} : { engine }),
  };
}

function setFigures(model: Model, stage: Stage, sweeps: FlowedStage["sets"][number], { ideal }: SideBasis): SetFigures {
  const { set } = sweeps.intake.source;
  const sideOf = (side: Side): SetSideFigures | undefined =>
    set.runs.every((run) => run.readings[side].length === 0)
      ? undefined
      : setSideFigures(sweeps[side], stage, side, ideal);
  const intake = sideOf("intake");
  const exhaust = sideOf("exhaust");
  return {
    name: set.name,
    conditions: distinctConditions(stage.sets[0]!, set, model.units),
    ...(intake === undefined ? {} : { intake }),
    ...(exhaust === undefined ? {} : { exhaust }),
  };
}
