import { type Model, SIDES } from "../model/model.ts";
import type { OverallComparison } from "./comparison.ts";
import { compareWithBefore } from "./comparisons.ts";
import type { Figures, ReferenceFigures, SampleFigures } from "./figures.ts";
import { frameOf } from "./frame.ts";
import { sampleFigures } from "./sample-figures.ts";
import { type BriefSide, briefSide } from "./side-figures.ts";

/** As much of a job's figures as a list of many jobs shows. */
export type BriefFigures = {
  readonly reference: ReferenceFigures;
  /** The stage that goes out. */
  readonly delivered: { readonly intake?: BriefSide; readonly exhaust?: BriefSide };
  /** That stage with the one before. */
  readonly comparisons: readonly OverallComparison[];
  readonly sample?: SampleFigures;
};

/** Index of the stage that goes out: the last that measures no other again; −1 for a product. */
const deliveredIndex = ({ stages }: Model): number => stages.findLastIndex((stage) => stage.repeats === undefined);

/**
 * The figures of a job that a list of many shows, at a fraction of the work.
 *
 *     parts of `computeFigures`, made by the same functions
 *
 * @param model  the validated job or product, in SI
 * @returns      the figures, equal to `briefOf` of all figures
 * @source       as `computeFigures`
 * @example      briefFigures({ stages: [], samples: [], report: { lifts: [] }, reference: { testPressure: 6974.489, air: { temperature: 293.15, pressure: 101325, relativeHumidity: 0 } } }).comparisons // []
 */
export function briefFigures(model: Model): BriefFigures {
  const { reference, flowed, frames } = frameOf(model);
  const last = flowed[deliveredIndex(model)];
  const intake = last && briefSide(last.stage, last.intake, "intake", frames.intake);
  const exhaust = last && briefSide(last.stage, last.exhaust, "exhaust", frames.exhaust);
  const sample = sampleFigures(model);
  return {
    reference,
    delivered: { ...(intake && { intake }), ...(exhaust && { exhaust }) },
    comparisons: last ? compareWithBefore(model, flowed, last.stage.name) : [],
    ...(sample === undefined ? {} : { sample }),
  };
}

/**
 * The same out of all figures, where those are there.
 *
 *     the stage that goes out, and what it is compared with
 *
 * @param model    the model
 * @param figures  all figures of it
 * @returns        the figures that a list shows
 * @source         definition
 * @example        briefOf({ stages: [] }, { stages: [], comparisons: [] }).comparisons // []
 */
export function briefOf(model: Model, figures: Figures): BriefFigures {
  const index = deliveredIndex(model);
  const { intake, exhaust } = figures.stages[index] ?? {};
  const name = model.stages[index]?.name;
  return {
    reference: figures.reference,
    delivered: { ...(intake && { intake }), ...(exhaust && { exhaust }) },
    // The change from the stage before stands ahead of the whole way from the first.
    comparisons: SIDES.flatMap(
      (side) =>
        figures.comparisons.find((one) => one.side === side && one.to.stage === name && one.from.label === undefined) ??
        [],
    ),
    ...(figures.sample && { sample: figures.sample }),
  };
}
