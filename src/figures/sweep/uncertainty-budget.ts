import type { Run } from "../../model/model.ts";
import { pascals } from "../../units/quantity.ts";
import { conversionError } from "../air/ideal-flow.ts";
import type { Term } from "../math/uncertainty.ts";
import { type Point, portKey, type SweepSource, sweepName } from "./point.ts";
import { leakageAt, type Reference, referenceFactor } from "./reading-to-reference.ts";
import type { Repeatability } from "./repeatability.ts";

const INFINITE_DOF = Number.POSITIVE_INFINITY;

/** Inputs common to the budgets of a sweep's mean readings. */
export type SweepBudget = {
  readonly source: SweepSource;
  readonly reference: Reference;
  readonly repeatability: Repeatability;
};

/**
 * Uncertainty budgets of the mean readings of a sweep. Each term identifies its error, so that shared errors cancel or add.
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
 * @param sweep  what its readings share: source, reference and repeatability
 * @returns      the terms [m³/s] of a mean reading, from its lift [m], its readings by port, and dQ ÷ dL of the curve there [m²/s]
 * @source       JCGM 100:2008 (GUM), 4.3, 5.1 and 5.2; F.2.2.1 (resolution)
 * @example      uncertaintyBudget({ source: { head: "", side: "intake", stage: { name: "s", sets: [] }, set: { name: "bare", bench: { liftSetting: 0 } } }, reference: { testPressure: 7000 }, repeatability: { s: 0.01, dof: 4, from: "repeats" } })(0.01, [[{ port: "1", flow: 0.1, run: { mount: 1, bench: { meter: "orifice", testPressure: 7000 } }, reading: { pressure: 7000 } }]], 0)[0].u // 0.001
 */
export function uncertaintyBudget(
  sweep: SweepBudget,
): (lift: number, groups: readonly (readonly Point[])[], slope: number) => Term[] {
  const { source, reference, repeatability } = sweep;
  const { side, set, stage, head } = source;
  const { bench } = set;
  const name = sweepName(source);
  const benchName = JSON.stringify(bench.name ?? null);
  const repeats = repeatability.from === "repeats" ? `repeats of ${name}` : `repeatability of ${benchName}`;
  const accuracy = `accuracy / ${benchName} / ${side}`;
  const leakage = `leakage / ${name}`;
  const day = stage.date ?? `stage ${stage.name}`;
  const mountOf = (run: Run) => `mount / ${JSON.stringify([head, side, day, portKey(run), run.mount])}`;

  return (lift, groups, slope) => {
    const terms: Term[] = [];
    const add = (error: string, estimate: string, u: number, dof = INFINITE_DOF) => {
      if (u !== 0) terms.push({ error, estimate, u, dof });
    };
    const share = 1 / groups.length;
    const at = micrometres(lift);
    for (const points of groups) {
      const n = points.length;
      const own = `${name} ${points[0]!.port} ${at}`;
      let sum = 0;
      let digit = 0;
      for (const point of points) {
        sum += point.flow;
        digit = Math.max(digit, resolutionOf(point, source, reference));
      }
      const mean = sum / n;
      const part = share / n;
      add(`${own} s`, repeats, (share * repeatability.s * mean) / Math.sqrt(n), repeatability.dof);
      add(`${own} digit`, "resolution", (share * digit) / Math.sqrt(12));
      add(accuracy, "accuracy", (share * (bench.accuracy ?? 0) * mean) / 2);
      for (const point of points) {
        const { run, flow } = point;
        const { pressure } = point.reading;
        add(mountOf(run), "re-mounting", (part * (bench.remount ?? 0) * mean) / 2);
        if (run.bench.leakage !== undefined)
          add(leakage, "leakage", part * leakageDeviation(point, source, reference, repeatability.s));
        if (pressure !== reference.testPressure)
          add(
            `conversion / ${side} / ${run.bench.testPressure.toPrecision(3)}`,
            "conversion",
            (part * conversionError(side, pressure, reference.testPressure, reference.air) * flow) / Math.sqrt(3),
          );
      }
    }
    add(`${name} lift ${at}`, "lift setting", (slope * bench.liftSetting) / 2 / Math.sqrt(groups.length));
    return terms;
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
