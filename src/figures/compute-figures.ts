import type { Model } from "../model/model.ts";
import { compareStages } from "./comparison/comparisons.ts";
import type { Figures } from "./figures.ts";
import { computeBasis } from "./side/figure-basis.ts";
import { sampleFigures } from "./side/sample-figures.ts";
import { stageFigures } from "./side/stage-figures.ts";
import { type AllSweeps, readAllSweeps } from "./sweep/read-all-sweeps.ts";

/**
 * Everything a sheet can say, computed once from a valid model. It never throws for one, and every number is finite: what
 * cannot be computed is absent.
 *
 *     readings at reference conditions → figures of each stage → comparisons → samples
 *
 * @param model   the validated job or product, in SI
 * @param sweeps  its sweeps, where they are read already
 * @returns       the figures; the same object for the same model, whatever the order of its runs
 */
export function computeFigures(model: Model, sweeps: AllSweeps = readAllSweeps(model)): Figures {
  const { reference, frames } = computeBasis(model, sweeps.stages);
  const delivered = model.stages.findLast((stage) => stage.repeats === undefined);
  // This job's engine and springs are not those of other heads.
  const { engine: _, ...bareModel } = model;
  const others = sweeps.compared.map((one, k) => ({
    label: model.compared[k]!.label,
    ...stageFigures(bareModel, one, frames, false),
  }));
  const sample = sampleFigures(sweeps.samples);
  return {
    [model.identity.kind]: model.identity.number,
    title: model.identity.title,
    issued: model.identity.issued,
    revision: model.identity.revision,
    reference,
    stages: sweeps.stages.map((one) => stageFigures(model, one, frames, one.stage === delivered)),
    comparisons: compareStages(model, sweeps, frames),
    ...(others.length === 0 ? {} : { others }),
    ...(sample === undefined ? {} : { sample }),
    warnings: [],
  };
}
