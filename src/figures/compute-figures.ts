import { deliveredStage } from "../model/delivered-stage.ts";
import type { Model } from "../model/model.ts";
import { compareStages } from "./comparison/comparisons.ts";
import { addFilling } from "./engine/fills-better.ts";
import type { Figures } from "./figures.ts";
import { computeBasis } from "./side/figure-basis.ts";
import { figuresOverSamples } from "./side/sample-figures.ts";
import { stageFigures } from "./side/stage-figures.ts";
import { type AllSweeps, readAllSweeps } from "./sweep/read-all-sweeps.ts";

/**
 * All figures of a sheet, computed once from a valid model. It never throws for a valid model, and every number is finite:
 * what cannot be computed is absent.
 *
 *     readings at reference conditions → figures of each stage → comparisons → samples
 *
 * @param model   the validated job or product, in SI
 * @param sweeps  its sweeps, if already computed
 * @returns       the figures; the same object for the same model, whatever the order of its runs, but where the first typed counts
 */
export function computeFigures(model: Model, sweeps: AllSweeps = readAllSweeps(model)): Figures {
  const { reference, bases } = computeBasis(model, sweeps.stages);
  const delivered = deliveredStage(model.stages);
  // Engine, springs and the ports of the means belong to this job's head only.
  const { engine: _, ...bareModel } = model;
  const { ports: __, ...intake } = bases.intake;
  const { ports: ___, ...exhaust } = bases.exhaust;
  const others = sweeps.compared.map((one, k) => ({
    label: model.compared[k]!.label,
    ...stageFigures(bareModel, one, { intake, exhaust }, false),
  }));
  const sample = figuresOverSamples(sweeps.samples, model);
  const stages = sweeps.stages.map((one) => stageFigures(model, one, bases, one.stage === delivered));
  return {
    [model.identity.kind]: model.identity.number,
    title: model.identity.title,
    issued: model.identity.issued,
    revision: model.identity.revision,
    reference,
    stages,
    comparisons: addFilling(compareStages(model, sweeps, bases), model, stages),
    ...(others.length === 0 ? {} : { others }),
    ...(sample === undefined ? {} : { sample }),
    warnings: [],
  };
}
