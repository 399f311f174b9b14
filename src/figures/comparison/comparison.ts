import type { DisplayUnits, Side } from "../../model/model.ts";
import { isClear } from "../../model/verdict.ts";
import type { Metres } from "../../units/quantity.ts";
import type { Comparison } from "../figures.ts";
import type { CombinedUncertainty } from "../math/uncertainty.ts";
import { crossovers } from "../side/crossovers.ts";
import type { ReportLift } from "../side/report-lifts.ts";
import { conditionDifferences } from "../sweep/conditions.ts";
import { cylinderOfPort, handOfPort } from "../sweep/point.ts";
import { narrowSweep, type Sweep } from "../sweep/sweep.ts";
import { verdictOn } from "../sweep/verdict.ts";
import { type ChangeRules, liftChanges, peakChange } from "./lift-changes.ts";
import { meanChange } from "./mean-change.ts";
import { hasUnknownAccuracy, withholdingReason } from "./withholding.ts";

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
 * Change from one sweep to another, lift by lift and on the mean, each with its ± and verdict. Only ports that are full in both
 * are compared: cylinder 1 with cylinder 1, a hand with the same hand; with another head, a hand with the same hand.
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
  const narrowed = comparedSweeps(pair);
  if (narrowed === undefined) return notCompared("no port in both", "no port was flowed in both");
  if (pair.swapped) return notCompared("columns swapped", SWAPPED_COLUMNS);
  const [from, to] = narrowed;
  const differences = conditionDifferences(from.source.set, to.source.set, pair.side, basis.units);
  const withheld = withholdingReason(from, to, basis.units);
  // Under unlike conditions a change is higher or lower, but no gain or loss of the port.
  const same = pair.same && differences.length === 0;
  return {
    ...sides,
    like_for_like: differences.length === 0,
    differences,
    ...(withheld === undefined ? {} : { verdict_withheld: withheld }),
    ...(basis.floor === undefined ? {} : { floor_ratio: basis.floor }),
    cylinders: cylindersOf(to),
    ...(isOtherHead(pair) ? { from_cylinders: cylindersOf(from) } : {}),
    ...changesOf(from, to, basis, withheld, same),
  };
}

/**
 * Both sweeps through the full ports of one hand that are compared: of one head those that both stages have, of two heads any.
 * The later curve's hand goes first, then the other's.
 *
 *     see `narrowSweep`
 *
 * @param pair  the two, and whether they are of one head
 * @returns     the two sweeps through these ports; undefined where there is none
 * @source      common practice
 * @example     comparedSweeps({ from: { ports: ["2"], full: ["2"] }, to: { ports: ["1"], full: ["1"] }, same: true }) // undefined
 */
export function comparedSweeps(pair: SweepPair): readonly [Sweep, Sweep] | undefined {
  const { from, to } = pair;
  const key = (port: string) => (isOtherHead(pair) ? handOfPort(port) : port);
  const shared = (sweep: Sweep, other: Sweep) => {
    const keys = new Set(other.full.map(key));
    return sweep.full.filter((port) => keys.has(key(port)));
  };
  const [before, after] = [shared(from, to), shared(to, from)];
  const hand = [...to.ports, ...from.ports, ...after]
    .map(handOfPort)
    .find((one) => after.map(handOfPort).includes(one));
  const ofHand = (ports: readonly string[]) => ports.filter((port) => handOfPort(port) === hand);
  return after.length === 0 ? undefined : [narrowSweep(from, ofHand(before)), narrowSweep(to, ofHand(after))];
}

const isOtherHead = ({ fromLabel, toLabel }: SweepPair): boolean => fromLabel !== undefined || toLabel !== undefined;

/** Changes of the mean, the peak and the lifts, and where the curves cross. */
function changesOf(
  from: Sweep,
  to: Sweep,
  { lifts, netLift, floor = 0 }: ComparisonBasis,
  withheld: Comparison["verdict_withheld"],
  same: boolean,
) {
  const verdict = (change: number, combined: CombinedUncertainty | undefined, before: number) =>
    verdictOn(change, combined, floor * before, same);
  const rules: ChangeRules = {
    isBeyond: (change, uncertainty, before) => Math.abs(change) > uncertainty && Math.abs(change) > floor * before,
    judge: ({ change, combined, before, unknownAccuracy }) =>
      unknownAccuracy || (withheld !== undefined && withheld !== "two ranges")
        ? undefined
        : verdict(change, combined, before.flow),
  };
  const judgeMean = (change: number, combined: CombinedUncertainty | undefined) => verdict(change, combined, 1);
  const mean = meanChange(
    from,
    to,
    netLift,
    withheld === undefined ? judgeMean : undefined,
    !hasUnknownAccuracy(from, to),
  );
  const changes = liftChanges(from, to, lifts, rules, isClear(mean.mean_change_verdict));
  const peak = peakChange(from, to, rules);
  return {
    ...mean,
    ...(peak === undefined ? {} : { peak_change: peak }),
    changes,
    crossovers_m: from.curve === undefined || to.curve === undefined ? [] : crossovers(from.curve, to.curve, changes),
  };
}

const cylindersOf = ({ ports }: Sweep): number[] => [...new Set(ports.map(cylinderOfPort))].sort((a, b) => a - b);

function stageLabel(sweep: Sweep, label: string | undefined): Comparison["from"] {
  const { name: stage } = sweep.source.stage;
  return label === undefined ? { stage } : { stage, label };
}

const SWAPPED_COLUMNS =
  "in one stage the exhaust flows more than the intake and in the other less, as if two columns of readings were swapped";
