import type { Model, Side } from "../model/model.ts";
import { compareStages, leadingSweep } from "./comparisons.ts";
import type { Figures } from "./figures.ts";
import { frameOf } from "./frame.ts";
import { sampleFigures } from "./sample-figures.ts";
import type { SideFrame } from "./side-figures.ts";
import { stageFigures } from "./stage-figures.ts";

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
  const { reference, flowed, frames } = frameOf(model);
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
