import type { Model, Side } from "../model/model.ts";
import { compareStages, leadingSweep } from "./comparisons.ts";
import type { Figures, ReferenceFigures } from "./figures.ts";
import { humidAirDensity } from "./humid-air-density.ts";
import { idealFlowPerArea } from "./ideal-flow.ts";
import { sharedRange } from "./lifts.ts";
import type { IdealFlow } from "./reading-figures.ts";
import { reportLifts } from "./report-lifts.ts";
import { sampleFigures } from "./sample-figures.ts";
import type { SideFrame } from "./side-figures.ts";
import { soundSpeed } from "./sound-speed.ts";
import { type FlowedStage, stageFigures } from "./stage-figures.ts";

/**
 * Everything a sheet can say, computed once from a valid model. It never throws for one, and every number is finite: what
 * cannot be computed is absent.
 *
 *     readings at reference conditions → figures of each stage → comparisons → samples
 *
 * @param model    the validated job or product, in SI
 * @returns        the figures; the same object for the same model, whatever the order of its runs
 */
export function computeFigures(model: Model): Figures {
  const reference = referenceFigures(model);
  const flowed = model.stages.map(
    (stage): FlowedStage => ({
      stage,
      intake: leadingSweep(model, stage, "intake", ""),
      exhaust: leadingSweep(model, stage, "exhaust", ""),
    }),
  );
  const ideal = reference.ideal_flow_per_area_m_s;
  const frames = {
    intake: sideFrame(model, flowed, "intake", ideal),
    exhaust: sideFrame(model, flowed, "exhaust", ideal),
  };
  const delivered = model.stages.findLast((stage) => stage.repeats === undefined);
  const others = otherHeads(model, frames);
  const sample = sampleFigures(model);
  return {
    [model.identity.kind]: model.identity.number,
    title: model.identity.title,
    issued: model.identity.issued,
    revision: model.identity.revision,
    reference,
    stages: flowed.map((one) => stageFigures(model, one, frames, one.stage === delivered)),
    comparisons: compareStages(model, flowed, frames),
    ...(others.length === 0 ? {} : { others }),
    ...(sample === undefined ? {} : { sample }),
    warnings: [],
  };
}

/** Other heads of the shop, under their label. This job's engine and springs are not theirs. */
function otherHeads(model: Model, frames: Readonly<Record<Side, SideFrame>>): NonNullable<Figures["others"]> {
  const { engine: _, ...bare } = model;
  return model.compared.map(({ label, stage }) => {
    const flowed = {
      stage,
      intake: leadingSweep(model, stage, "intake", label),
      exhaust: leadingSweep(model, stage, "exhaust", label),
    };
    return { label, ...stageFigures(bare, flowed, frames, false) };
  });
}

function referenceFigures({ reference }: Model): ReferenceFigures {
  const { testPressure, air } = reference;
  return {
    test_pressure_Pa: testPressure,
    air: {
      temperature_K: air.temperature,
      pressure_Pa: air.pressure,
      relative_humidity: air.relativeHumidity,
      density_kg_m3: humidAirDensity(air.temperature, air.pressure, air.relativeHumidity),
      sound_speed_m_s: soundSpeed(air.temperature),
    },
    ideal_flow_per_area_m_s: {
      intake: idealFlowPerArea("intake", testPressure, air),
      exhaust: idealFlowPerArea("exhaust", testPressure, air),
    },
  };
}

/** What the stages of a job share on one side: the range of their means, and the lifts of which the sheet speaks. */
function sideFrame(model: Model, flowed: readonly FlowedStage[], side: Side, ideal: IdealFlow): SideFrame {
  const sweeps = flowed.flatMap((one) => (one[side] !== undefined && one[side].good.length > 0 ? [one[side]] : []));
  const lists = sweeps.map((sweep) => sweep.good.map((reading) => reading.lift));
  const range = sharedRange(lists, model.engine?.cams[side]?.netLift);
  return { ideal, lifts: reportLifts(model, side, sweeps), ...(range === undefined ? {} : { range }) };
}
