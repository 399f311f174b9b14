import type { Run } from "../../model/model.ts";
import { conversionError } from "../air/ideal-flow.ts";
import { INFINITE_DOF } from "../constants.ts";
import type { BudgetPart, Term } from "../math/uncertainty.ts";
import { benchKey, type Point, type SweepSource, sweepName } from "./point.ts";
import { leakageAt, type Reference, referenceFactor } from "./reading-to-reference.ts";
import type { Scatter } from "./scatter.ts";

/** Inputs common to the budgets of a sweep's mean readings. */
type SweepBudget = {
  readonly source: SweepSource;
  readonly reference: Reference;
  readonly scatter: Required<Scatter>;
};

/**
 * Uncertainty budgets of the mean readings of a sweep. Each term identifies its error, so that shared errors cancel or add.
 *
 *     repeatability  s q ÷ √n                 each reading's own; one estimate for the head, bench and side
 *     resolution     digit ÷ √12              each reading's own; not made smaller by repeats
 *     re-mounting    s q                      shared by one mount of one stage; of each cylinder if so measured
 *     lift setting   slope · (± ÷ 2)          shared by one mount of one cylinder, or each lift's own
 *     leakage        digit, repeatability and pressure exponent of the leakage itself; shared by one bench and side
 *     accuracy       (± ÷ 2) q                shared by one bench, range and side
 *     conversion     half-width ÷ √3 · q      shared by one nominal test pressure and side
 *
 * Leakage is taken between proportional to √ΔP (an opening) and to ΔP (a seep) where it was measured at another pressure.
 *
 * @param sweep  what its readings share: source, reference and scatter
 * @returns      the terms [m³/s] of a mean reading, from its lift [m], its readings by port, and dQ ÷ dL of the curve there [m²/s]
 * @source       JCGM 100:2008 (GUM), 4.3, 5.1 and 5.2; F.2.2.1 (resolution)
 * @example      uncertaintyBudget({ source: { head: "", side: "intake", stage: { name: "s", sets: [] }, set: { name: "bare", bench: { liftSetting: 0 } } }, reference: { testPressure: 7000 }, scatter: { repeatability: { from: "repeats", ratio: 0.01, dof: 4 }, remounting: { from: "stated", ratio: 0 } } })(0.01, [[{ port: "1", flow: 0.1, run: { mount: 1, bench: { meter: "orifice", testPressure: 7000 } }, reading: { pressure: 7000 } }]], 0)[0].u // 0.001
 */
export function uncertaintyBudget(
  sweep: SweepBudget,
): (lift: number, groups: readonly (readonly Point[])[], slope: number) => Term[] {
  const names = budgetNames(sweep);
  const { source, reference, scatter } = sweep;
  const { side, set } = source;
  const { accuracy = 0, liftSetting } = set.bench;
  const { repeatability, remounting } = scatter;

  return (lift, groups, slope) => {
    const terms = new Map<string, Term>();
    const add = (part: BudgetPart, error: string, u: number, dof = INFINITE_DOF, errorAtLift?: string) => {
      if (u === 0) return;
      const sum = (terms.get(error)?.u ?? 0) + u;
      terms.set(error, { part, error, errorAtLift, estimate: names.estimates[part], u: sum, dof });
    };
    const at = micrometres(lift);
    for (const points of groups) {
      const n = points.length;
      const share = 1 / groups.length;
      const part = share / n;
      const own = names.reading(points[0]!.port, at);
      const mean = points.reduce((sum, { flow }) => sum + flow, 0) / n;
      const digit = Math.max(...points.map((point) => resolutionOf(point, source, reference)));
      add("repeats", `${own} s`, (share * repeatability.ratio * mean) / Math.sqrt(n), repeatability.dof);
      add("resolution", `${own} digit`, (share * digit) / Math.sqrt(12));
      for (const point of points) {
        const { run, flow } = point;
        const { pressure, range } = point.reading;
        const { mount, lifts } = names.mount(run, point.port);
        add("accuracy", names.accuracy(range), (part * accuracy * mean) / 2);
        add("remounting", mount, part * remounting.ratio * mean, remounting.dof);
        add("lift_setting", lifts, (part * slope * liftSetting) / 2, INFINITE_DOF, `${lifts} ${at}`);
        if (run.bench.leakage !== undefined)
          add("leakage", names.leakage, part * leakageDeviation(point, source, reference, repeatability.ratio));
        if (pressure !== reference.testPressure) {
          const error = conversionError(side, pressure, reference.testPressure, reference.air);
          add("conversion", names.conversion(run), (part * error * flow) / Math.sqrt(3));
        }
      }
    }
    return [...terms.values()];
  };
}

/** Names of a sweep's errors, and of the estimates of their size. */
function budgetNames({ source, scatter }: SweepBudget) {
  const { head, stage, set, side } = source;
  const { repeatability, remounting } = scatter;
  const sweep = sweepName(source);
  const bench = `${benchKey(set.bench)} ${side}`;
  const ofHead = `${JSON.stringify(head)} ${bench}`;
  const ofStage = JSON.stringify([head, side, stage.name]);
  const mounts = new Map<Run, { readonly mount: string; readonly lifts: string }>();
  return {
    estimates: {
      accuracy: "accuracy",
      repeats: `repeatability ${repeatability.from === "stated" ? bench : ofHead}`,
      remounting: `re-mounting ${remounting.from === "own" ? ofHead : bench}`,
      lift_setting: "lift setting",
      resolution: "resolution",
      leakage: "leakage",
      conversion: "conversion",
    } satisfies Record<BudgetPart, string>,
    leakage: `leakage ${bench}`,
    accuracy: (range = "") => `accuracy ${bench} ${range}`,
    conversion: ({ bench: { testPressure } }: Run) => `conversion ${side} ${testPressure.toPrecision(3)}`,
    reading: (port: string, at: number) => `${sweep} ${port} ${at}`,
    mount: (run: Run, port: string) => {
      const known = mounts.get(run);
      if (known !== undefined) return known;
      const own = `${ofStage} ${JSON.stringify([port, run.mount])}`;
      const names = { mount: `mount ${remounting.byCylinder ? own : `${ofStage} ${run.mount}`}`, lifts: `lift ${own}` };
      mounts.set(run, names);
      return names;
    },
  };
}

/** A lift for a term's name, at the resolution of `sameLift`. */
const micrometres = (lift: number): number => Math.round(lift * 1e6);

/** Size of a reading's last digit, at reference conditions. */
function resolutionOf(point: Point, { set }: SweepSource, reference: Reference): number {
  const digit = set.bench.resolution ?? point.reading.resolution ?? 0;
  return digit * referenceFactor(point.run.bench, point.reading.pressure, reference);
}

/** Standard uncertainty of the leakage taken off a reading, at reference conditions. */
function leakageDeviation(point: Point, { side }: SweepSource, reference: Reference, s: number): number {
  const { bench } = point.run;
  const { pressure } = point.reading;
  const leak = leakageAt(bench, side, pressure);
  if (bench.leakage === undefined || leak === 0) return 0;
  const root = Math.sqrt(pressure / bench.leakage.testPressure);
  const digit = ((bench.leakage.resolution?.[side] ?? 0) * root) / Math.sqrt(12);
  return (
    referenceFactor(bench, pressure, reference) *
    Math.hypot(digit, s * leak, (leak * Math.abs(root - 1)) / Math.sqrt(3))
  );
}
