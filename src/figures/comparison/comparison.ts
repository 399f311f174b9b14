import type { Bench, DisplayUnits, Side } from "../../model/model.ts";
import type { Metres } from "../../units/quantity.ts";
import { CHECK_PLATE_WITHHOLDS, checkPlateError } from "../checks/check-plate.ts";
import { NO_FLOW } from "../constants.ts";
import type { ChangeFigures, Comparison, Verdict } from "../figures.ts";
import { distinctLifts, sameLift, sharedLifts, sharedRange } from "../math/lifts.ts";
import { over } from "../math/limits.ts";
import { flowCurve } from "../math/pchip.ts";
import { crossovers } from "../side/crossovers.ts";
import { peakReading } from "../side/curve-shape.ts";
import type { ReportLift } from "../side/report-lifts.ts";
import { conditionDifferences } from "../sweep/conditions.ts";
import { meanFlow } from "../sweep/mean-flow.ts";
import { narrowSweep, type Sweep } from "../sweep/sweep.ts";
import { curveTerms, uncertaintyOfDifference, uncertaintyOfRatio } from "../sweep/sweep-uncertainty.ts";
import { isClear, verdictOn } from "../sweep/verdict.ts";
import { flowAt } from "./compared-flows.ts";

/** Two sweeps of one side, and how they stand to each other. */
export type SweepPair = {
  readonly from: Sweep;
  readonly to: Sweep;
  readonly side: Side;
  /** One port, stage to stage: gain and loss are words for that only. */
  readonly same: boolean;
  readonly fromLabel?: string;
  readonly toLabel?: string;
  /** One of the two reads as if its columns were swapped. */
  readonly swapped?: boolean;
};

/** What a comparison needs to know of the job. */
export type ComparisonFrame = {
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
 * @param frame  units, report lifts, cam lift and floor
 * @returns      the comparison; without changes where no port was measured in both, or the columns of one look swapped
 * @source       JCGM 100:2008 (GUM), 5; what counts as clear stands in verdict.ts
 * @example      compareSweeps({ from: { ports: [], good: [], source: { stage: { name: "a" }, set: { bench: { attached: {} } } } }, to: { ports: [], good: [], source: { stage: { name: "b" }, set: { bench: { attached: {} } } } }, side: "intake", same: true }, { units: {}, lifts: [] }).changes // []
 */
export function compareSweeps(pair: SweepPair, frame: ComparisonFrame): Comparison {
  const sides = { from: named(pair.from, pair.fromLabel), to: named(pair.to, pair.toLabel), side: pair.side };
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
  if (pair.swapped) return notCompared("columns swapped", SWAPPED);
  const narrowed = (sweep: Sweep) => (common.length === sweep.ports.length ? sweep : narrowSweep(sweep, common));
  const [from, to] = [narrowed(pair.from), narrowed(pair.to)];
  const differences = conditionDifferences(from.source.set, to.source.set, pair.side, frame.units);
  const withheld = withheldBy(from.source.set.bench, to.source.set.bench);
  const floor = frame.floor ?? 0;
  // What another set-up may have brought is higher or lower, but no gain or loss of the port.
  const same = pair.same && differences.length === 0;
  const verdict: VerdictRule = (change, combined, of) =>
    withheld === undefined ? verdictOn(change, combined, floor * of, same) : "too few repeats";
  const changes = changesBetween(from, to, frame.lifts, verdict);
  return {
    ...sides,
    like_for_like: differences.length === 0,
    differences,
    ...(withheld === undefined ? {} : { verdict_withheld: withheld }),
    ...meanChange(from, to, frame.netLift, verdict, withheld),
    ...(frame.floor === undefined ? {} : { floor_ratio: frame.floor }),
    changes,
    crossovers_m: from.curve === undefined || to.curve === undefined ? [] : crossovers(from.curve, to.curve, changes),
  };
}

function named(sweep: Sweep, label: string | undefined): Comparison["from"] {
  const { name: stage } = sweep.source.stage;
  return label === undefined ? { stage } : { stage, label };
}

const SWAPPED =
  "in one stage the exhaust flows more than the intake and in the other less, as if two columns of readings were swapped";

/** Why no verdict is given: a bench that was off, or two benches of which nobody said how far they agree. */
function withheldBy(from: Bench, to: Bench): Comparison["verdict_withheld"] {
  if ([from, to].some((bench) => over(checkPlateError(bench), CHECK_PLATE_WITHHOLDS))) return "check plate";
  const stated = from.accuracy !== undefined && to.accuracy !== undefined;
  return from.name === to.name || stated ? undefined : "two benches";
}

/** `of` is what the floor is a share of. */
type VerdictRule = (change: number, combined: Parameters<typeof verdictOn>[1], of: number) => Verdict;

function changesBetween(from: Sweep, to: Sweep, lifts: readonly ReportLift[], verdict: VerdictRule): ChangeFigures[] {
  const measured = sharedLifts([from.good.map((reading) => reading.lift), to.good.map((reading) => reading.lift)]);
  const wanted = lifts.map(({ lift }) => lift ?? peakReading(to.good)?.lift).filter((lift) => lift !== undefined);
  let crossed: ReturnType<typeof readCrosswise> | undefined;
  return distinctLifts([...measured, ...wanted]).flatMap((lift) => {
    const change = changeAt(from, to, lift, verdict);
    if (change === undefined) return [];
    if (!change.interpolated || !isClear(change.verdict)) return [change];
    crossed ??= readCrosswise(from, to);
    const stands = crossed.every(([a, b]) => changeAt(a, b, lift, verdict)?.verdict === change.verdict);
    return [stands ? change : { ...change, verdict: "too few repeats" as const }];
  });
}

function changeAt(from: Sweep, to: Sweep, lift: Metres, verdict: VerdictRule): ChangeFigures | undefined {
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
    verdict: verdict(change, combined, before.flow),
    ...(before.interpolated || after.interpolated ? { interpolated: true as const } : {}),
  };
}

/** What the two sweeps say of the mean, where they share a range. */
function meanChange(
  from: Sweep,
  to: Sweep,
  netLift: Metres | undefined,
  verdict: VerdictRule,
  withheld: Comparison["verdict_withheld"],
): Partial<Comparison> {
  const mean = meanOfBoth(from, to, netLift, verdict);
  if (mean === undefined) return {};
  const { range, change, combined, said } = mean;
  const stands = ([a, b]: readonly [Sweep, Sweep]) => meanOfBoth(a, b, netLift, verdict)?.said === said;
  const robust = () => !isClear(said) || robustnessVariants(from, to).every(stands);
  return {
    from_lift_m: range.from,
    to_lift_m: range.to,
    mean_change_ratio: change,
    ...(combined === undefined ? {} : { mean_change_uncertainty_ratio: combined.expanded }),
    ...(withheld === undefined ? { mean_change_verdict: robust() ? said : "too few repeats" } : {}),
  };
}

function meanOfBoth(from: Sweep, to: Sweep, netLift: Metres | undefined, verdict: VerdictRule) {
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
  return { range, change, combined, said: verdict(change, combined, 1) };
}

/**
 * The two sweeps without what alone carries no verdict, each way in which a clear mean change has to stand: unsteady readings, and the
 * bow of the curve over a gap that one of both has. Either is left out of both sweeps: bridged on one side only, the bow would itself
 * be a gain or a loss.
 */
function robustnessVariants(from: Sweep, to: Sweep): readonly (readonly [Sweep, Sweep])[] {
  const unsteady = [from, to].flatMap(({ good }) => good.filter(({ noisy }) => noisy).map(({ lift }) => lift));
  const [a, b] = unsteady.length === 0 ? [from, to] : [without(from, unsteady), without(to, unsteady)];
  const alike = a.good.length === b.good.length && a.good.every(({ lift }, k) => sameLift(lift, b.good[k]!.lift));
  if (alike) return unsteady.length === 0 ? [] : [[a, b]];
  return [[a, b], ...readCrosswise(a, b)];
}

/** Each sweep with the other as it would be with the same lifts: what stands between them both ways is no gap's doing. */
const readCrosswise = (a: Sweep, b: Sweep): readonly (readonly [Sweep, Sweep])[] => [
  [readAt(a, b), b],
  [a, readAt(b, a)],
];

/** A sweep as it would be with the other's lifts only. */
const readAt = (sweep: Sweep, { good }: Sweep): Sweep =>
  resampleSweep(
    sweep,
    good.flatMap(({ lift }) => {
      const found = flowAt(sweep, lift);
      return found === undefined ? [] : [{ ...found, repeats: 0, doubtful: false, noisy: false }];
    }),
  );

const without = (sweep: Sweep, lifts: readonly Metres[]): Sweep =>
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
