import type { Model, Side } from "../../model/model.ts";
import { sameLift } from "../../units/same-lift.ts";
import type { SampleFigures, SampleSideFigures } from "../figures.ts";
import { distinctLifts } from "../math/lifts.ts";
import { combine, uncertaintyFigures } from "../math/uncertainty.ts";
import type { FlowedStage } from "../sweep/read-all-sweeps.ts";
import { reportLifts } from "./report-lifts.ts";

/**
 * Mean and spread over the heads that a product is compiled from, at each lift over the heads that have it. Nothing is
 * interpolated.
 *
 *     mean = Σ Q ÷ n,  s = √(Σ (Q − mean)² ÷ (n − 1))
 *
 * Low, mid and high are lifts that all heads have; see `reportLifts`.
 *
 * @param samples  the sampled heads with their sweeps
 * @param model    lifts of the report
 * @returns        the figures, or undefined for a job
 * @source         JCGM 100:2008 (GUM), 4.2.1–4.2.2
 * @example        figuresOverSamples([], {}) // undefined
 */
export function figuresOverSamples(samples: readonly FlowedStage[], model: Model): SampleFigures | undefined {
  if (samples.length === 0) return undefined;
  const intake = sampleSide(samples, "intake", model);
  const exhaust = sampleSide(samples, "exhaust", model);
  return {
    n: samples.length,
    ...(intake === undefined ? {} : { intake }),
    ...(exhaust === undefined ? {} : { exhaust }),
  };
}

function sampleSide(samples: readonly FlowedStage[], side: Side, model: Model): SampleSideFigures | undefined {
  const sweeps = samples.flatMap((sample) => sample[side] ?? []);
  const heads = sweeps.map(({ good }) => good);
  const lifts = distinctLifts(heads.flat().map((reading) => reading.lift));
  if (lifts.length === 0) return undefined;
  return {
    readings: lifts.map((lift) => {
      const here = heads.flatMap((good) => good.filter((one) => sameLift(one.lift, lift)));
      const flows = here.map((one) => one.flow as number);
      const known = here.map(({ terms }) => uncertaintyFigures(terms && combine(terms)));
      const largest = known.every(({ uncertainty_m3_s: own }) => own !== undefined)
        ? known.toSorted((a, b) => b.uncertainty_m3_s! - a.uncertainty_m3_s!)[0]
        : {};
      return { lift_m: lift, ...spreadOf(flows), flows_m3_s: flows.toSorted((a, b) => a - b), ...largest };
    }),
    compared: reportLifts(model, side, sweeps).flatMap(({ at, lift }) =>
      lift === undefined || at === "cam" ? [] : [{ at, lift_m: lift }],
    ),
  };
}

/**
 * Mean, range and standard deviation of a few values.
 *
 *     s = √(Σ (x − mean)² ÷ (n − 1)), in two passes
 *
 * @param values  the values, at least 1
 * @returns       n, mean, lowest, highest; the standard deviation from 2 values on
 * @source        JCGM 100:2008 (GUM), 4.2.1–4.2.2
 * @example       spreadOf([1, 2, 3]) // { n: 3, mean_m3_s: 2, low_m3_s: 1, high_m3_s: 3, standard_deviation_m3_s: 1 }
 */
export function spreadOf(
  values: readonly number[],
): Omit<SampleSideFigures["readings"][number], "lift_m" | "flows_m3_s" | "uncertainty_m3_s" | "budget"> {
  const n = values.length;
  const mean = values.reduce((sum, value) => sum + value, 0) / n;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return {
    n,
    mean_m3_s: mean,
    low_m3_s: Math.min(...values),
    high_m3_s: Math.max(...values),
    ...(n > 1 ? { standard_deviation_m3_s: Math.sqrt(squares / (n - 1)) } : {}),
  };
}
