import type { Side } from "../model/model.ts";
import { type Pascals, pascals } from "../units/quantity.ts";
import { conversionError } from "./ideal-flow.ts";
import type { Point, SweepSource } from "./point.ts";
import { leakageAt, type Reference, referenceFactor } from "./reading-to-reference.ts";
import type { Repeatability } from "./repeatability.ts";
import type { Term } from "./uncertainty.ts";

const STATED = Number.POSITIVE_INFINITY;

/** What the budget of one mean reading is made from: `groups` are its readings by port, `slope` is dQ ÷ dL of the curve there. */
export type ReadingBudget = {
  readonly source: SweepSource;
  readonly reference: Reference;
  readonly lift: number;
  readonly groups: readonly (readonly Point[])[];
  readonly repeatability: Repeatability;
  readonly slope: number;
};

/**
 * Uncertainty budget of a mean reading. Each term names its error, so that what two readings share can cancel or add.
 *
 *     repeatability  s q ÷ √n                 each reading's own; one estimate for the sweep
 *     resolution     digit ÷ √12              each reading's own; not made smaller by repeats
 *     re-mounting    (± ÷ 2) q                shared by one mount of one port on one date
 *     lift setting   slope · (± ÷ 2)          each lift's own
 *     leakage        digit, repeatability and pressure exponent of the leakage itself; shared by the sweep
 *     accuracy       (± ÷ 2) q                shared by one bench and side
 *     conversion     half-width ÷ √3 · q      shared by one nominal test pressure and side
 *
 * Leakage is taken between proportional to √ΔP (an opening) and to ΔP (a seep) where it was measured at another pressure.
 * Stages without dates count as different mounts: the head left the bench for the work.
 *
 * @param budget  the mean reading: source, reference, lift [m], readings by port, repeatability, slope [m²/s]
 * @returns       the terms [m³/s]
 * @source        JCGM 100:2008 (GUM), 4.3, 5.1 and 5.2; F.2.2.1 (resolution)
 * @example       readingTerms({ source: { head: "", side: "intake", stage: { name: "s" }, set: { name: "bare", bench: { liftSetting: 0 } } }, reference: { testPressure: 7000 }, lift: 0.01, slope: 0, repeatability: { s: 0.01, dof: 4, from: "repeats" }, groups: [[{ port: "1", flow: 0.1, run: { mount: 1, bench: { meter: "orifice", testPressure: 7000 } }, reading: { pressure: 7000 } }]] })[0].u // 0.001
 */
export function readingTerms(budget: ReadingBudget): Term[] {
  const { source, lift, groups, slope } = budget;
  const { bench } = source.set;
  const sweep = [source.head, source.stage.name, source.set.name, source.side].join(" / ");
  const perPort = groups.flatMap((points) => portTerms(budget, points, sweep));
  const setting = (slope * bench.liftSetting) / 2 / Math.sqrt(groups.length);
  const own = `${sweep} / lift setting ${lift}`;
  return [...perPort, { error: own, estimate: "lift setting", u: setting, dof: STATED }].filter((term) => term.u !== 0);
}

function portTerms(
  { source, reference, lift, groups, repeatability }: ReadingBudget,
  points: readonly Point[],
  sweep: string,
): Term[] {
  const { side, set, stage, head } = source;
  const { bench } = set;
  const share = 1 / groups.length;
  const n = points.length;
  const port = points[0]!.port;
  const mean = points.reduce((sum, point) => sum + point.flow, 0) / n;
  const own = `${sweep} / ${port} / ${lift}`;
  const benchName = bench.name ?? "the bench";
  const day = stage.date ?? `stage ${stage.name}`;
  const digit = Math.max(...points.map((point) => resolutionOf(point, source, reference)));
  const estimate = repeatability.from === "repeats" ? `repeats of ${sweep}` : `repeatability of ${benchName}`;
  const terms: Term[] = [
    {
      error: `${own} / repeatability`,
      estimate,
      u: (share * repeatability.s * mean) / Math.sqrt(n),
      dof: repeatability.dof,
    },
    { error: `${own} / resolution`, estimate: "resolution", u: (share * digit) / Math.sqrt(12), dof: STATED },
    {
      error: `accuracy / ${benchName} / ${side}`,
      estimate: "accuracy",
      u: (share * (bench.accuracy ?? 0) * mean) / 2,
      dof: STATED,
    },
  ];
  const add = (error: string, kind: string, u: number) => {
    if (u !== 0) terms.push({ error, estimate: kind, u, dof: STATED });
  };
  for (const point of points) {
    const part = share / n;
    const { pressure } = point.reading;
    add(
      `mount / ${head} / ${side} / ${day} / ${port} / ${point.run.mount}`,
      "re-mounting",
      (part * (bench.remount ?? 0) * mean) / 2,
    );
    if (point.run.bench.leakage !== undefined)
      add(`leakage / ${sweep}`, "leakage", part * leakageDeviation(point, source, reference, repeatability.s));
    if (pressure !== reference.testPressure)
      add(
        `conversion / ${side} / ${point.run.bench.testPressure.toPrecision(3)}`,
        "conversion",
        (part * conversionAt(side, pressure, reference) * point.flow) / Math.sqrt(3),
      );
  }
  return terms;
}

/** The readings of a sweep share a pressure or two. */
let latest: ({ readonly reference: Reference } & Record<Side, Map<Pascals, number>>) | undefined;

function conversionAt(side: Side, from: Pascals, reference: Reference): number {
  if (latest?.reference !== reference) latest = { reference, intake: new Map(), exhaust: new Map() };
  const error = latest[side].get(from) ?? conversionError(side, from, reference.testPressure, reference.air);
  latest[side].set(from, error);
  return error;
}

/** Size of a reading's last digit, at reference conditions. */
function resolutionOf(point: Point, { set }: SweepSource, reference: Reference): number {
  const digit = set.bench.resolution ?? point.reading.resolution ?? 0;
  return digit * referenceFactor(point.run.bench, point.reading.pressure, reference);
}

/** Standard uncertainty of the leakage taken off a reading, at reference conditions. */
function leakageDeviation(point: Point, source: SweepSource, reference: Reference, s: number): number {
  const { bench } = point.run;
  const { pressure } = point.reading;
  const leak = leakageAt(bench, source.side, pressure);
  if (bench.leakage === undefined || leak === 0) return 0;
  const seep = leak * Math.sqrt(pressure / bench.leakage.testPressure);
  const digit = resolutionOf(point, source, reference) / Math.sqrt(12);
  const factor = referenceFactor(bench, pascals(pressure), reference);
  return Math.hypot(digit, factor * s * leak, (factor * Math.abs(seep - leak)) / Math.sqrt(3));
}
