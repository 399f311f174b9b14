import { isClear } from "../../model/verdict.ts";
import type { Metres } from "../../units/quantity.ts";
import { sameLift } from "../../units/same-lift.ts";
import { NO_FLOW } from "../constants.ts";
import type { Comparison, Verdict } from "../figures.ts";
import { sharedRange } from "../math/lifts.ts";
import { flowCurve, meanFlow } from "../math/pchip.ts";
import { budgetOf, type CombinedUncertainty } from "../math/uncertainty.ts";
import type { Sweep } from "../sweep/sweep.ts";
import { curveTerms, uncertaintyOfRatio } from "../sweep/sweep-uncertainty.ts";
import { flowAt } from "./compared-flows.ts";

/** How a change of the mean is judged, where verdicts are not withheld. */
type MeanRule = (change: number, combined: CombinedUncertainty | undefined) => Verdict;

/**
 * Change of the mean flow between two sweeps, over the lifts that both share. A clear one must also hold with each sweep read at
 * the other's lifts, and without unsteady readings.
 *
 *     Q̄_to ÷ Q̄_from − 1;  bound = |change| + U, where it is within repeatability
 *
 * @param from     the one sweep
 * @param to       the other
 * @param netLift  net lift of the cam [m], beyond which nothing is averaged
 * @param judge    how it is judged; left out where verdicts are withheld
 * @param isKnown  whether its ± can be known: false where two benches or ranges meet whose accuracy is not stated
 * @returns        the keys of a comparison; none where the two share no range
 * @source         JCGM 100:2008 (GUM), 5; the bound is common practice
 * @example        meanChange({ good: [] }, { good: [] }, undefined, undefined, true) // {}
 */
export function meanChange(
  from: Sweep,
  to: Sweep,
  netLift: Metres | undefined,
  judge: MeanRule | undefined,
  isKnown: boolean,
): Partial<Comparison> {
  const mean = compareMeans(from, to, netLift);
  if (mean === undefined) return {};
  const { range, before, change } = mean;
  const combined = isKnown ? mean.combined : undefined;
  const verdict = judge && robustVerdict(judge(change, combined), judge, from, to, netLift);
  return {
    from_lift_m: range.from,
    to_lift_m: range.to,
    mean_from_m3_s: before,
    mean_change_ratio: change,
    ...(combined && { mean_change_uncertainty_ratio: combined.expanded, mean_change_budget: budgetOf(combined) }),
    ...(verdict && { mean_change_verdict: verdict }),
    ...(verdict === "within repeatability" && combined && { bound_ratio: Math.abs(change) + combined.expanded }),
  };
}

/** A clear verdict where all variants of the two sweeps give it, else `too few repeats`; any other as it is. */
function robustVerdict(
  verdict: Verdict,
  judge: MeanRule,
  from: Sweep,
  to: Sweep,
  netLift: Metres | undefined,
): Verdict {
  const holds = ([a, b]: readonly [Sweep, Sweep]) => {
    const mean = compareMeans(a, b, netLift);
    return mean !== undefined && judge(mean.change, mean.combined) === verdict;
  };
  return !isClear(verdict) || robustnessVariants(from, to).every(holds) ? verdict : "too few repeats";
}

function compareMeans(from: Sweep, to: Sweep, netLift: Metres | undefined) {
  const range = sharedRange(
    [from.good.map((reading) => reading.lift), to.good.map((reading) => reading.lift)],
    netLift,
  );
  if (range === undefined || from.curve === undefined || to.curve === undefined) return undefined;
  const before = meanFlow(from.curve, range.from, range.to);
  const after = meanFlow(to.curve, range.from, range.to);
  if (before === undefined || after === undefined || !(before > NO_FLOW)) return undefined;
  const terms = (sweep: Sweep) => curveTerms(sweep, (curve) => meanFlow(curve, range.from, range.to));
  const combined = uncertaintyOfRatio(after, terms(to), before, terms(from));
  return { range, before, change: after / before - 1, combined };
}

/**
 * Robustness checks: variants of the two sweeps in all of which a clear mean change must hold. They drop unsteady readings and lifts
 * that only one sweep has, from both sweeps: interpolation across a gap on one side only would itself appear as a change.
 */
function robustnessVariants(from: Sweep, to: Sweep): readonly (readonly [Sweep, Sweep])[] {
  const unsteady = [from, to].flatMap(({ good }) => good.filter(({ noisy }) => noisy).map(({ lift }) => lift));
  const [a, b] = unsteady.length === 0 ? [from, to] : [removeLifts(from, unsteady), removeLifts(to, unsteady)];
  const alike = a.good.length === b.good.length && a.good.every(({ lift }, k) => sameLift(lift, b.good[k]!.lift));
  if (alike) return unsteady.length === 0 ? [] : [[a, b]];
  return [[a, b], ...crossResample(a, b)];
}

/** Each sweep with the other resampled at its lifts: a verdict that holds both ways is no artefact of a gap. */
const crossResample = (a: Sweep, b: Sweep): readonly (readonly [Sweep, Sweep])[] => [
  [resampleAtLiftsOf(a, b), b],
  [a, resampleAtLiftsOf(b, a)],
];

/** A sweep resampled at the other's lifts. */
const resampleAtLiftsOf = (sweep: Sweep, { good }: Sweep): Sweep =>
  resampleSweep(
    sweep,
    good.flatMap(({ lift }) => {
      const found = flowAt(sweep, lift);
      return found === undefined
        ? []
        : [{ ...found, ports: [], partial: false, repeats: 0, mounts: 0, doubtful: false, noisy: false }];
    }),
  );

const removeLifts = (sweep: Sweep, lifts: readonly Metres[]): Sweep =>
  resampleSweep(
    sweep,
    sweep.good.filter((reading) => !lifts.some((lift) => sameLift(lift, reading.lift))),
  );

function resampleSweep(sweep: Sweep, good: Sweep["good"]): Sweep {
  const curve = flowCurve(
    good.map(({ lift }) => lift),
    good.map(({ flow }) => flow),
  );
  const { curve: _, ...rest } = sweep;
  return { ...rest, good, ...(good.length > 0 ? { curve } : {}) };
}
