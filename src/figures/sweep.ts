import type { Run } from "../model/model.ts";
import { SAME_LIFT } from "./constants.ts";
import { distinctLifts, sameLift } from "./lifts.ts";
import { type Curve, flowCurve } from "./pchip.ts";
import type { Point, SweepSource } from "./point.ts";
import { readingTerms } from "./reading-terms.ts";
import { type Reference, readingToReference } from "./reading-to-reference.ts";
import { type Repeatability, repeatabilityOf } from "./repeatability.ts";
import type { Term } from "./uncertainty.ts";

/** Mean of the cylinders' means at one lift. */
export type MeanReading = {
  readonly lift: number;
  readonly flow: number;
  readonly repeats: number;
  readonly doubtful: boolean;
  readonly noisy: boolean;
  readonly convertedFrom?: number;
  /** Its budget; absent where neither repeats nor a repeatability are known. */
  readonly terms?: readonly Term[];
};

/** A set's readings on one side, and the curve through the good ones. */
export type Sweep = {
  readonly source: SweepSource;
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
 * Name of the port that a run measured: one hand of one cylinder.
 *
 *     cylinder, and hand if any
 *
 * @param run  the run
 * @returns    the name; equal for runs that are compared with each other
 * @source     definition
 * @example    portKey({ cylinder: 5, hand: "end" }) // "5 end"
 */
export function portKey(run: Run): string {
  return run.hand === undefined ? `${run.cylinder}` : `${run.cylinder} ${run.hand}`;
}

/**
 * Readings of one set and side as they are reported: each at reference conditions, repeats averaged within a port, ports
 * averaged at lifts that every measured port has. A good reading wins over a doubtful one at the same lift.
 *
 *     Q(L) = (1 ÷ K) Σ over ports of (1 ÷ n) Σ Q_i
 *
 * @param source     head, stage, set and side
 * @param reference  reference test pressure and air
 * @param only       names of the ports to take, see `portKey`; left out, all
 * @returns          the sweep; without a curve where nothing good was read
 * @source           JCGM 100:2008 (GUM), 4.2 (means of repeats)
 * @example          readSweep({ head: "a", side: "intake", stage: { name: "s" }, set: { name: "bare", bench: {}, runs: [] } }, {}).good // []
 */
export function readSweep(source: SweepSource, reference: Reference, only?: ReadonlySet<string>): Sweep {
  const whole = wholeSweep(source, reference);
  return only === undefined || whole.points.every((point) => only.has(point.port))
    ? whole
    : sweepOf(source, reference, only);
}

type Known = { readonly source: SweepSource; readonly sweep: Sweep };

/** Figures, comparisons and checks ask for the same few sweeps many times. */
let latest: { readonly reference: Reference; readonly sweeps: Map<SweepSource["set"], Known[]> } | undefined;

function wholeSweep(source: SweepSource, reference: Reference): Sweep {
  const { head, stage, set, side } = source;
  if (latest?.reference !== reference) latest = { reference, sweeps: new Map() };
  const ofSet = latest.sweeps.get(set) ?? [];
  latest.sweeps.set(set, ofSet);
  const known = ofSet.find((one) => one.source.side === side && one.source.stage === stage && one.source.head === head);
  if (known !== undefined) return known.sweep;
  const sweep = sweepOf(source, reference);
  ofSet.push({ source, sweep });
  return sweep;
}

function sweepOf(source: SweepSource, reference: Reference, only?: ReadonlySet<string>): Sweep {
  const everything = pointsOf(source, reference);
  const sameMount = (a: Point, b: Point) => a.run.mount === b.run.mount;
  const repeatability = repeatabilityOf(
    repeatGroups(everything, sameMount),
    source.set.bench,
    repeatGroups(everything, () => true),
  );
  const points = only === undefined ? everything : everything.filter((point) => only.has(point.port));
  const read = points.filter(isGood).length > 0 ? points.filter(isGood) : points;
  const ports = [...new Set(read.map((point) => point.port))].sort((a, b) =>
    a.localeCompare(b, "en", { numeric: true }),
  );
  const means = distinctLifts(points.map((point) => point.lift)).flatMap((lift) => {
    const groups = ports.map((port) => usedAt(points, port, lift));
    return groups.every((group) => group.length > 0) ? [{ lift, groups }] : [];
  });
  const shown = means.map(({ lift, groups }) => meanOf(lift, groups, reference));
  const good = shown.filter((mean) => !mean.doubtful && mean.lift > SAME_LIFT);
  if (good.length === 0) return { source, good, shown, ports, points, repeatability };

  const curve = flowCurve(
    good.map((mean) => mean.lift),
    good.map((mean) => mean.flow),
  );
  if (repeatability === undefined) return { source, good, shown, curve, ports, points };
  const budgeted = good.map((mean, k) => {
    const { groups } = means.find((one) => one.lift === mean.lift)!;
    return {
      ...mean,
      terms: readingTerms({ source, reference, lift: mean.lift, groups, repeatability, slope: curve.d[k + 1]! }),
    };
  });
  const withTerms = shown.map((mean) => budgeted.find((other) => other.lift === mean.lift) ?? mean);
  return { source, good: budgeted, shown: withTerms, curve, ports, points, repeatability };
}

const isGood = (point: Point) => point.reading.kind === "good" || point.reading.kind === "noisy";

function pointsOf({ set, side }: SweepSource, reference: Reference): Point[] {
  return set.runs.flatMap((run) =>
    run.readings[side].flatMap((reading) => {
      if (reading.flow === undefined || reading.kind === "missing" || reading.kind === "struck out") return [];
      const flow = readingToReference(reading.flow, run.bench, side, reading.pressure, reference);
      return [{ port: portKey(run), run, reading, lift: reading.lift, flow }];
    }),
  );
}

/** Good readings of one port and lift, as far as two mounts may stand together: repeats of each other. */
function repeatGroups(points: readonly Point[], together: (a: Point, b: Point) => boolean): number[][] {
  const groups: { first: Point; flows: number[] }[] = [];
  for (const point of points.filter(isGood)) {
    const group = groups.find(
      ({ first }) => first.port === point.port && together(first, point) && sameLift(first.lift, point.lift),
    );
    if (group === undefined) groups.push({ first: point, flows: [point.flow] });
    else group.flows.push(point.flow);
  }
  return groups.map((group) => group.flows);
}

function usedAt(points: readonly Point[], port: string, lift: number): Point[] {
  const here = points.filter((point) => point.port === port && sameLift(point.lift, lift));
  const good = here.filter(isGood);
  return good.length > 0 ? good : here;
}

function meanOf(lift: number, groups: readonly (readonly Point[])[], reference: Reference): MeanReading {
  const all = groups.flat();
  const means = groups.map((group) => group.reduce((sum, point) => sum + point.flow, 0) / group.length);
  const converted = all
    .map((point) => point.reading.pressure as number)
    .filter((pressure) => Math.abs(pressure / reference.testPressure - 1) > 1e-6)
    .sort((a, b) => Math.abs(Math.log(b / reference.testPressure)) - Math.abs(Math.log(a / reference.testPressure)));
  return {
    lift,
    flow: means.reduce((sum, mean) => sum + mean, 0) / means.length,
    repeats: all.length,
    doubtful: !all.every(isGood),
    noisy: all.some((point) => point.reading.kind === "noisy"),
    ...(converted[0] === undefined ? {} : { convertedFrom: converted[0] }),
  };
}
