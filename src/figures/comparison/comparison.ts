import type { Bench, DisplayUnits, Side } from "../../model/model.ts";
import type { Metres } from "../../units/quantity.ts";
import { CHECK_PLATE_WITHHOLDS, checkPlateError } from "../checks/bench-conditions.ts";
import { NO_FLOW } from "../constants.ts";
import type { ChangeFigures, Comparison, Verdict } from "../figures.ts";
import { distinctLifts, sameLift, sharedLifts, sharedRange } from "../math/lifts.ts";
import { exceeds } from "../math/limits.ts";
import { flowCurve, meanFlow } from "../math/pchip.ts";
import { crossovers } from "../side/crossovers.ts";
import { peakReading } from "../side/curve-shape.ts";
import type { ReportLift } from "../side/report-lifts.ts";
import { conditionDifferences } from "../sweep/conditions.ts";
import { narrowSweep, type Sweep } from "../sweep/sweep.ts";
import { curveTerms, uncertaintyOfDifference, uncertaintyOfRatio } from "../sweep/sweep-uncertainty.ts";
import { isClear, verdictOn } from "../sweep/verdict.ts";
import { flowAt } from "./compared-flows.ts";

/** Two sweeps of one side, and their relation. */
export type SweepPair = {
  readonly from: Sweep;
  readonly to: Sweep;
  readonly side: Side;
  /** One port, stage to stage: only then is a change called gain or loss. */
  readonly same: boolean;
  readonly fromLabel?: string;
  readonly toLabel?: string;
  /** One of the two reads as if its columns were swapped. */
  readonly swapped?: boolean;
};

/** Inputs of a comparison that the job's stages share. */
export type ComparisonBasis = {
  readonly units: DisplayUnits;
  readonly lifts: readonly ReportLift[];
  /** Net lift of the cam on that side [m]. */
  readonly netLift?: Metres;
  /** Distance of a stage measured again from itself, as a share of flow. */
  readonly floor?: number;
};

/**
 * Change from one sweep to another, lift by lift and on the mean, each with its ± and verdict. Only ports measured in both
 * are compared: cylinder 1 with cylinder 1, a hand with the same hand.
 *
 *     change = Q_to − Q_from;  mean change = Q̄_to ÷ Q̄_from − 1 over the lifts that both share
 *
 * @param pair   the two sweeps
 * @param basis  units, report lifts, cam lift and floor
 * @returns      the comparison; without changes where no port was measured in both, or the columns of one look swapped
 * @source       JCGM 100:2008 (GUM), 5; verdicts in verdict.ts
 * @example      compareSweeps({ from: { ports: [], good: [], source: { stage: { name: "a" }, set: { bench: { attached: {} } } } }, to: { ports: [], good: [], source: { stage: { name: "b" }, set: { bench: { attached: {} } } } }, side: "intake", same: true }, { units: {}, lifts: [] }).changes // []
 */
export function compareSweeps(pair: SweepPair, basis: ComparisonBasis): Comparison {
  const sides = { from: stageLabel(pair.from, pair.fromLabel), to: stageLabel(pair.to, pair.toLabel), side: pair.side };
  const notCompared = (why: Comparison["not_compared"], ...differences: string[]): Comparison => ({
    ...sides,
    like_for_like: false,
    differences,
    ...(why === undefined ? {} : { not_compared: why }),
    changes: [],
    crossovers_m: [],
  });
  if (pair.from.ports.length === 0 || pair.to.ports.length === 0) return notCompared(undefined);
  const common = pair.from.ports.filter((port) => pair.to.ports.includes(port));
  if (common.length === 0) return notCompared("no port in both", "no port was flowed in both");
  if (pair.swapped) return notCompared("columns swapped", SWAPPED_COLUMNS);
  const narrow = (sweep: Sweep) => (common.length === sweep.ports.length ? sweep : narrowSweep(sweep, common));
  const [from, to] = [narrow(pair.from), narrow(pair.to)];
  const differences = conditionDifferences(from.source.set, to.source.set, pair.side, basis.units);
  const withheld = withholdingReason(from.source.set.bench, to.source.set.bench);
  const floor = basis.floor ?? 0;
  // Under unlike conditions a change is higher or lower, but no gain or loss of the port.
  const same = pair.same && differences.length === 0;
  const judge: VerdictRule = (change, combined, of) =>
    withheld === undefined ? verdictOn(change, combined, floor * of, same) : "too few repeats";
  const changes = changesBetween(from, to, basis.lifts, judge);
  return {
    ...sides,
    like_for_like: differences.length === 0,
    differences,
    ...(withheld === undefined ? {} : { verdict_withheld: withheld }),
    ...meanChange(from, to, basis.netLift, judge, withheld),
    ...(basis.floor === undefined ? {} : { floor_ratio: basis.floor }),
    changes,
    crossovers_m: from.curve === undefined || to.curve === undefined ? [] : crossovers(from.curve, to.curve, changes),
  };
}

function stageLabel(sweep: Sweep, label: string | undefined): Comparison["from"] {
  const { name: stage } = sweep.source.stage;
  return label === undefined ? { stage } : { stage, label };
}

const SWAPPED_COLUMNS =
  "in one stage the exhaust flows more than the intake and in the other less, as if two columns of readings were swapped";

/** Why no verdict is given: a check plate out of limits, or two benches without a stated accuracy. */
function withholdingReason(from: Bench, to: Bench): Comparison["verdict_withheld"] {
  if ([from, to].some((bench) => exceeds(checkPlateError(bench), CHECK_PLATE_WITHHOLDS))) return "check plate";
  const stated = from.accuracy !== undefined && to.accuracy !== undefined;
  return from.name === to.name || stated ? undefined : "two benches";
}

/** `of` is the flow that the relative floor refers to. */
type VerdictRule = (change: number, combined: Parameters<typeof verdictOn>[1], of: number) => Verdict;

function changesBetween(from: Sweep, to: Sweep, lifts: readonly ReportLift[], judge: VerdictRule): ChangeFigures[] {
  const measured = sharedLifts([from.good.map((reading) => reading.lift), to.good.map((reading) => reading.lift)]);
  const wanted = lifts.map(({ lift }) => lift ?? peakReading(to.good)?.lift).filter((lift) => lift !== undefined);
  let crossed: ReturnType<typeof crossResample> | undefined;
  return distinctLifts([...measured, ...wanted]).flatMap((lift) => {
    const change = changeAt(from, to, lift, judge);
    if (change === undefined) return [];
    if (!change.interpolated || !isClear(change.verdict)) return [change];
    crossed ??= crossResample(from, to);
    const stands = crossed.every(([a, b]) => changeAt(a, b, lift, judge)?.verdict === change.verdict);
    return [stands ? change : { ...change, verdict: "too few repeats" as const }];
  });
}

function changeAt(from: Sweep, to: Sweep, lift: Metres, judge: VerdictRule): ChangeFigures | undefined {
  const before = flowAt(from, lift);
  const after = flowAt(to, lift);
  if (before === undefined || after === undefined || !(before.flow > NO_FLOW)) return undefined;
  const change = after.flow - before.flow;
  const combined = uncertaintyOfDifference(after.terms, before.terms);
  return {
    lift_m: before.interpolated ? after.lift : before.lift,
    change_m3_s: change,
    change_ratio: change / before.flow,
    ...(combined === undefined ? {} : { uncertainty_m3_s: combined.expanded }),
    verdict: judge(change, combined, before.flow),
    ...(before.interpolated || after.interpolated ? { interpolated: true as const } : {}),
  };
}

/** Change of the mean flow, where the two sweeps share a range. */
function meanChange(
  from: Sweep,
  to: Sweep,
  netLift: Metres | undefined,
  judge: VerdictRule,
  withheld: Comparison["verdict_withheld"],
): Partial<Comparison> {
  const mean = compareMeans(from, to, netLift, judge);
  if (mean === undefined) return {};
  const { range, change, combined, verdict } = mean;
  const stands = ([a, b]: readonly [Sweep, Sweep]) => compareMeans(a, b, netLift, judge)?.verdict === verdict;
  const robust = () => !isClear(verdict) || robustnessVariants(from, to).every(stands);
  return {
    from_lift_m: range.from,
    to_lift_m: range.to,
    mean_change_ratio: change,
    ...(combined === undefined ? {} : { mean_change_uncertainty_ratio: combined.expanded }),
    ...(withheld === undefined ? { mean_change_verdict: robust() ? verdict : "too few repeats" } : {}),
  };
}

function compareMeans(from: Sweep, to: Sweep, netLift: Metres | undefined, judge: VerdictRule) {
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
  const change = after / before - 1;
  return { range, change, combined, verdict: judge(change, combined, 1) };
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
      return found === undefined ? [] : [{ ...found, repeats: 0, doubtful: false, noisy: false }];
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
