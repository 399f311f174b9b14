import { compareStages } from "../../src/figures/comparison/comparisons.ts";
import { isAccuracyUnknown } from "../../src/figures/comparison/flow-change.ts";
import type { Comparison } from "../../src/figures/figures.ts";
import { valveDiameter } from "../../src/figures/geometry/port-geometry.ts";
import { computeBasis } from "../../src/figures/side/figure-basis.ts";
import { flatSpots } from "../../src/figures/side/flat-spots.ts";
import { readAllSweeps } from "../../src/figures/sweep/read-all-sweeps.ts";
import type { Model } from "../../src/model/model.ts";
import { INCH } from "../figures/model-fixture.ts";
import { createRandom } from "./random.ts";
import { type Change, type LiftCount, type SimulatedBench, simulateJob, VALVE } from "./simulated-bench.ts";

/** How often, of all jobs simulated, each claim was made. */
export type Counts = {
  jobs: number;
  /** Jobs of which the mean change is judged at all. */
  judged: number;
  meanCalled: number;
  /** The change of the peak. */
  peakCalled: number;
  anyLiftCalled: number;
  /** A lift that did not change. */
  unchangedLiftCalled: number;
  /** The true change of the mean lies within the printed ±. */
  covered: number;
  /** A flat spot named in the first stage, which has none. */
  flatSpots: number;
  /** A flat spot named on the plateau of the second stage. */
  plateauFound: number;
};

/** Simulates jobs, with as many lifts in turn, and counts what their figures claim. */
export function countClaims(
  bench: SimulatedBench,
  change: Change,
  jobs: number,
  seed: number,
  lifts: readonly LiftCount[] = [6, 10, 23],
): Counts {
  const random = createRandom(seed);
  const counts: Counts = {
    jobs,
    judged: 0,
    meanCalled: 0,
    peakCalled: 0,
    anyLiftCalled: 0,
    unchangedLiftCalled: 0,
    covered: 0,
    flatSpots: 0,
    plateauFound: 0,
  };
  for (let k = 0; k < jobs; k++) {
    const { model, meanChange, changeAt, plateau } = simulateJob(bench, lifts[k % lifts.length]!, change, random);
    const { comparison, flatSpots } = claimsOf(model, change === "none" || change === "plateau");
    const { mean_change_ratio: ratio, mean_change_uncertainty_ratio: uncertainty, changes } = comparison;
    const truth = meanChange(comparison.from_lift_m! / INCH, comparison.to_lift_m! / INCH);
    const isUnchanged = (lift: number) => Math.abs(changeAt(lift / INCH)) < 1e-9 && lift / INCH <= 0.22 * VALVE;
    if (uncertainty !== undefined) counts.judged++;
    if (isClear(comparison.mean_change_verdict)) counts.meanCalled++;
    if (isClear(comparison.peak_change?.verdict)) counts.peakCalled++;
    if (changes.some(({ verdict }) => isClear(verdict))) counts.anyLiftCalled++;
    if (changes.some(({ verdict, lift_m }) => isClear(verdict) && isUnchanged(lift_m))) counts.unchangedLiftCalled++;
    if (uncertainty !== undefined && Math.abs(ratio! - truth) <= uncertainty) counts.covered++;
    const [first, second] = flatSpots;
    if (first?.length) counts.flatSpots++;
    const onPlateau = ({ from_lift_m: from, to_lift_m: to }: { from_lift_m: number; to_lift_m: number }) =>
      Math.min(to / INCH, plateau.to) - Math.max(from / INCH, plateau.from) > (to - from) / INCH / 2;
    if (second?.some(onPlateau)) counts.plateauFound++;
  }
  return counts;
}

/** What the figures claim; without those that no claim is made from, for a sheet has many. */
function claimsOf(model: Model, withShape: boolean) {
  const sweeps = readAllSweeps(model);
  const [comparison] = compareStages(model, sweeps, computeBasis(model, sweeps.stages).bases) as [Comparison];
  const flat = (withShape ? sweeps.stages : []).map(({ stage, intake }) =>
    flatSpots(intake!.good, valveDiameter(stage.ports.intake!), (ranges) =>
      isAccuracyUnknown(ranges, intake!, intake!),
    ),
  );
  return { comparison, flatSpots: flat };
}

const isClear = (verdict: string | undefined) => verdict?.startsWith("clear") === true;
