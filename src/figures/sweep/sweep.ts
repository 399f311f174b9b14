import { type CubicMetresPerSecond, cubicMetresPerSecond, type Metres, type Pascals } from "../../units/quantity.ts";
import { SAME_LIFT } from "../constants.ts";
import { distinctLifts, sameLift } from "../math/lifts.ts";
import { type Curve, flowCurve } from "../math/pchip.ts";
import type { Term } from "../math/uncertainty.ts";
import { type Point, portKey, type SweepSource } from "./point.ts";
import { type Reference, readingToReference } from "./reading-to-reference.ts";
import { type Repeatability, repeatabilityOf } from "./repeatability.ts";
import { uncertaintyBudget } from "./uncertainty-budget.ts";

/** Mean of the cylinders' means at one lift. */
export type MeanReading = {
  readonly lift: Metres;
  readonly flow: CubicMetresPerSecond;
  readonly repeats: number;
  readonly doubtful: boolean;
  readonly noisy: boolean;
  readonly convertedFrom?: Pascals;
  /** Its budget; absent where neither repeats nor a repeatability are known. */
  readonly terms?: readonly Term[];
};

/** A set's readings on one side, and the curve through the good ones. */
export type Sweep = {
  readonly source: SweepSource;
  readonly reference: Reference;
  /** Used in everything computed; lifts ascending and above 0. */
  readonly good: readonly MeanReading[];
  /** All that are shown: good, doubtful, and any at zero lift. */
  readonly shown: readonly MeanReading[];
  readonly curve?: Curve;
  /** Ports measured, see `portKey`. */
  readonly ports: readonly string[];
  readonly points: readonly Point[];
  readonly repeatability?: Repeatability;
};

/**
 * Readings of one set and side as they are reported: each at reference conditions, repeats averaged within a port, ports
 * averaged at lifts that every measured port has. A good reading wins over a doubtful one at the same lift.
 *
 *     Q(L) = (1 ÷ K) Σ over ports of (1 ÷ n) Σ Q_i
 *
 * @param source     head, stage, set and side
 * @param reference  reference test pressure and air
 * @returns          the sweep; without a curve where nothing good was read
 * @source           JCGM 100:2008 (GUM), 4.2 (means of repeats)
 * @example          readSweep({ head: "a", side: "intake", stage: { name: "s", sets: [] }, set: { name: "bare", bench: {}, runs: [] } }, {}).good // []
 */
export function readSweep(source: SweepSource, reference: Reference): Sweep {
  const points = pointsOf(source, reference);
  const repeatability = repeatabilityOf(
    repeatGroups(points, (a, b) => a.run.mount === b.run.mount),
    source.set.bench,
    () => repeatGroups(points, () => true),
  );
  return buildSweep(points, { source, reference, repeatability });
}

/**
 * The sweep through some of its ports. Its repeatability stays that of the whole.
 *
 *     see `readSweep`
 *
 * @param sweep  the sweep of all ports
 * @param ports  names of the ports to keep, see `portKey`
 * @returns      the sweep
 * @example      narrowSweep({ points: [], good: [] }, ["1"]).good // []
 */
export function narrowSweep(sweep: Sweep, ports: readonly string[]): Sweep {
  const points = sweep.points.filter(({ port }) => ports.includes(port));
  return points.length === sweep.points.length ? sweep : buildSweep(points, sweep);
}

/** The sweep through all points of a source, or through those of some ports. */
function buildSweep(
  points: readonly Point[],
  { source, reference, repeatability }: Pick<Sweep, "source" | "reference" | "repeatability">,
): Sweep {
  const ports = portsOf(points.some(isGood) ? points.filter(isGood) : points);
  const groups: Point[][][] = [];
  const means: MeanReading[] = [];
  for (const lift of distinctLifts(points.map((point) => point.lift))) {
    const here = pointsByPort(points, ports, lift);
    if (here === undefined) continue;
    groups.push(here);
    means.push(meanReading(lift, here, reference));
  }
  const good = means.filter(isUsed);
  const bare = { source, reference, good, shown: means, ports, points, repeatability };
  if (good.length === 0) return bare;

  const curve = flowCurve(
    good.map((mean) => mean.lift),
    good.map((mean) => mean.flow),
  );
  if (repeatability === undefined) return { ...bare, curve };
  const termsAt = uncertaintyBudget({ source, reference, repeatability });
  let knot = 0;
  const shown = means.map(
    (mean, k): MeanReading =>
      isUsed(mean) ? { ...mean, terms: termsAt(mean.lift, groups[k]!, curve.d[++knot]!) } : mean,
  );
  return { ...bare, good: shown.filter(isUsed), shown, curve };
}

const isGood = ({ reading: { kind } }: Point) => kind === "good" || kind === "noisy";
const isUsed = (mean: MeanReading) => !mean.doubtful && mean.lift > SAME_LIFT;

function pointsOf({ set, side, run: only }: SweepSource, reference: Reference): Point[] {
  const runs = only === undefined ? set.runs : set.runs.slice(only, only + 1);
  return runs.flatMap((run) =>
    run.readings[side].flatMap((reading): Point[] => {
      const { flow, kind, lift, pressure } = reading;
      if (flow === undefined || kind === "missing" || kind === "struck out") return [];
      const atReference = readingToReference(flow, run.bench, side, pressure, reference);
      return [{ port: portKey(run), run, reading, lift, flow: atReference }];
    }),
  );
}

const portsOf = (points: readonly Point[]): string[] =>
  [...new Set(points.map(({ port }) => port))].sort((a, b) => a.localeCompare(b, "en", { numeric: true }));

/** Groups of repeats: good readings of one port at one lift, whose runs may stand `together`. */
function repeatGroups(points: readonly Point[], together: (a: Point, b: Point) => boolean): number[][] {
  const groups: Point[][] = [];
  for (const point of points.filter(isGood)) {
    const group = groups.find(
      ([first]) => first!.port === point.port && sameLift(first!.lift, point.lift) && together(first!, point),
    );
    if (group === undefined) groups.push([point]);
    else group.push(point);
  }
  return groups.map((group) => group.map(({ flow }) => flow));
}

/** What is used at a lift, port by port; undefined unless every port has a reading there. */
function pointsByPort(points: readonly Point[], ports: readonly string[], lift: Metres): Point[][] | undefined {
  const here = points.filter((point) => sameLift(point.lift, lift));
  const groups = ports.map((port) => {
    const all = here.filter((point) => point.port === port);
    const good = all.filter(isGood);
    return good.length > 0 ? good : all;
  });
  return groups.some((group) => group.length === 0) ? undefined : groups;
}

/** The test pressure furthest from the reference, where any is another than that; of equally far ones the first. */
function conversionPressure(points: readonly Point[], { testPressure }: Reference): Pascals | undefined {
  const apart = (pressure: Pascals) => Math.abs(Math.log(pressure / testPressure));
  return points
    .map(({ reading }) => reading.pressure)
    .filter((pressure) => Math.abs(pressure / testPressure - 1) > 1e-6)
    .reduce<Pascals | undefined>(
      (furthest, pressure) => (furthest === undefined || apart(pressure) > apart(furthest) ? pressure : furthest),
      undefined,
    );
}

function meanReading(lift: Metres, groups: readonly (readonly Point[])[], reference: Reference): MeanReading {
  const points = groups.flat();
  const means = groups.map((group) => group.reduce((sum, { flow }) => sum + flow, 0) / group.length);
  return {
    lift,
    flow: cubicMetresPerSecond(means.reduce((sum, mean) => sum + mean, 0) / groups.length),
    repeats: points.length,
    doubtful: !points.every(isGood),
    noisy: points.some(({ reading }) => reading.kind === "noisy"),
    convertedFrom: conversionPressure(points, reference),
  };
}
