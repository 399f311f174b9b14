import { type CubicMetresPerSecond, cubicMetresPerSecond, type Metres, type Pascals } from "../../units/quantity.ts";
import { SAME_LIFT, sameLift } from "../../units/same-lift.ts";
import { distinctLifts } from "../math/lifts.ts";
import { type Curve, flowCurve } from "../math/pchip.ts";
import type { Term } from "../math/uncertainty.ts";
import { fullPorts, mainHand } from "./full-ports.ts";
import { handOfPort, isGood, type Point, readPoints, type SweepSource } from "./point.ts";
import type { Reference } from "./reading-to-reference.ts";
import type { Scatter } from "./scatter.ts";
import { uncertaintyBudget } from "./uncertainty-budget.ts";

/** Mean of the ports' means at one lift. */
export type MeanReading = {
  readonly lift: Metres;
  readonly flow: CubicMetresPerSecond;
  /** Whose, see `portKey`. */
  readonly ports: readonly string[];
  /** A port of the curve has no good reading here: shown, and used in nothing. */
  readonly partial: boolean;
  /** The fewest readings on one mount, and the fewest mounts, among its ports. */
  readonly repeats: number;
  readonly mounts: number;
  /** Ranges of the bench on which it was read; empty text for one without a name. */
  readonly ranges: readonly string[];
  readonly doubtful: boolean;
  readonly noisy: boolean;
  readonly convertedFrom?: Pascals;
  /** Its budget; absent where no repeatability is known. */
  readonly terms?: readonly Term[];
};

/** A set's readings on one side, and the curve through the good ones. */
export type Sweep = {
  readonly source: SweepSource;
  readonly reference: Reference;
  /** Used in everything computed; lifts ascending and above 0. */
  readonly good: readonly MeanReading[];
  /** All that are shown: good, partial, doubtful, and any at zero lift. */
  readonly shown: readonly MeanReading[];
  readonly curve?: Curve;
  /** Ports of the curve: full, and of one hand, see `portKey`. */
  readonly ports: readonly string[];
  /** Full ports of any hand. */
  readonly full: readonly string[];
  /** Readings of all ports, full or not. */
  readonly points: readonly Point[];
  /** What its ± rest on; absent where nobody asked for a ±. */
  readonly scatter?: Scatter;
};

/**
 * Readings of one set and side as they are reported: each at reference conditions, the good ones averaged within a port, then
 * over the full ports of one hand. A good reading wins over a doubtful one at the same lift; where a port of the curve has no
 * good one, the row is partial.
 *
 *     Q(L) = (1 ÷ K) Σ over ports of (1 ÷ n) Σ Q_i
 *
 * @param source     head, stage, set and side
 * @param reference  reference test pressure and air
 * @param scatter    scatter of the head on that bench and side; without it no reading has a budget
 * @param hand       hand of the head's curves, taken where a full port has it; left out, the hand with most lifts
 * @returns          the sweep; without a curve where nothing good was read
 * @source           JCGM 100:2008 (GUM), 4.2 (means of repeats)
 * @example          readSweep({ head: "a", side: "intake", stage: { name: "s", sets: [] }, set: { name: "bare", bench: {}, runs: [] } }, {}).good // []
 */
export function readSweep(source: SweepSource, reference: Reference, scatter?: Scatter, hand?: string): Sweep {
  const points = readPoints(source, reference);
  const all = fullPorts(points);
  const full = all.map(({ port }) => port).sort(byNumber);
  const curveHand = full.some((port) => handOfPort(port) === hand) ? hand : mainHand(all);
  const ports = full.filter((port) => handOfPort(port) === curveHand);
  return buildSweep({ source, reference, scatter, points, full, ports });
}

/**
 * The sweep through some of its ports, full or not. What is partial is asked anew; its scatter stays that of the whole.
 *
 *     see `readSweep`
 *
 * @param sweep  the sweep of all ports
 * @param ports  names of the ports to keep, see `portKey`
 * @returns      the sweep
 * @example      narrowSweep({ points: [], good: [], ports: [] }, ["1"]).good // []
 */
export function narrowSweep(sweep: Sweep, ports: readonly string[]): Sweep {
  if (ports.length === sweep.ports.length && ports.every((port) => sweep.ports.includes(port))) return sweep;
  const points = sweep.points.filter(({ port }) => ports.includes(port));
  return buildSweep({ ...sweep, points, full: ports, ports });
}

type SweepInput = Pick<Sweep, "source" | "reference" | "scatter" | "points" | "full" | "ports">;

/** The sweep through the ports of its curve. */
function buildSweep({ source, reference, scatter, points, full, ports }: SweepInput): Sweep {
  const own = points.filter(({ port }) => ports.includes(port));
  const groups: Point[][][] = [];
  const means: MeanReading[] = [];
  for (const lift of distinctLifts(own.map((point) => point.lift))) {
    const here = pointsByPort(own, ports, lift);
    groups.push(here);
    means.push(meanReading(lift, here, ports.length, reference));
  }
  const good = means.filter(isUsed);
  const bare = { source, reference, good, shown: means, ports, full, points, scatter };
  if (good.length === 0) return bare;

  const curve = flowCurve(
    good.map((mean) => mean.lift),
    good.map((mean) => mean.flow),
  );
  if (scatter?.repeatability === undefined) return { ...bare, curve };
  const { repeatability, remounting } = scatter;
  const termsAt = uncertaintyBudget({ source, reference, scatter: { repeatability, remounting } });
  let knot = 0;
  const shown = means.map(
    (mean, k): MeanReading =>
      isUsed(mean) ? { ...mean, terms: termsAt(mean.lift, groups[k]!, curve.d[++knot]!) } : mean,
  );
  return { ...bare, good: shown.filter(isUsed), shown, curve };
}

const isUsed = (mean: MeanReading) => !mean.doubtful && !mean.partial && mean.lift > SAME_LIFT;

const byNumber = (a: string, b: string): number => a.localeCompare(b, "en", { numeric: true });

/** What is used at a lift, port by port: the good readings of those that have any, else what there is. */
function pointsByPort(points: readonly Point[], ports: readonly string[], lift: Metres): Point[][] {
  const here = points.filter((point) => sameLift(point.lift, lift));
  const used = here.some(isGood) ? here.filter(isGood) : here;
  return ports.map((port) => used.filter((point) => point.port === port)).filter((group) => group.length > 0);
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

/** The mean at a lift of those of so many ports that have a reading there. */
function meanReading(
  lift: Metres,
  groups: readonly (readonly Point[])[],
  ports: number,
  reference: Reference,
): MeanReading {
  const points = groups.flat();
  const doubtful = !points.every(isGood);
  const means = groups.map((group) => group.reduce((sum, { flow }) => sum + flow, 0) / group.length);
  return {
    lift,
    flow: cubicMetresPerSecond(means.reduce((sum, mean) => sum + mean, 0) / groups.length),
    ports: groups.map(([point]) => point!.port),
    partial: !doubtful && groups.length < ports,
    ...fewestReadings(groups),
    ranges: [...new Set(points.map(({ reading }) => reading.range ?? ""))].sort(),
    doubtful,
    noisy: points.some(({ reading }) => reading.kind === "noisy"),
    convertedFrom: conversionPressure(points, reference),
  };
}

/** The fewest readings on one mount, and the fewest mounts of one port. */
function fewestReadings(groups: readonly (readonly Point[])[]): Pick<MeanReading, "repeats" | "mounts"> {
  const counts = groups.map((points) => {
    const ofMounts = new Map<number, number>();
    for (const { run } of points) ofMounts.set(run.mount, (ofMounts.get(run.mount) ?? 0) + 1);
    return [...ofMounts.values()];
  });
  return { repeats: Math.min(...counts.flat()), mounts: Math.min(...counts.map((ofMounts) => ofMounts.length)) };
}
