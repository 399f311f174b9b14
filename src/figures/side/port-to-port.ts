import { sameLift } from "../../units/same-lift.ts";
import { NO_FLOW } from "../constants.ts";
import type { PortToPort, SideFigures } from "../figures.ts";
import { sharedLifts } from "../math/lifts.ts";
import { studentisedRange } from "../math/studentised-range.ts";
import { combineInputs, type Term } from "../math/uncertainty.ts";
import { measuredPorts } from "../sweep/full-ports.ts";
import { handOfPort } from "../sweep/point.ts";
import { type MeanReading, narrowSweep, type Sweep } from "../sweep/sweep.ts";

/** One port with its own sweep. */
type OwnSweep = { readonly port: string; readonly sweep: Sweep };

/** One port's mean over the shared lifts [m³/s], with its readings there. */
type PortMean = { readonly port: string; readonly readings: readonly MeanReading[]; readonly mean: number };

/**
 * Port to port: what each port flowed at each lift; over the lifts at which all ports of the curve's hand have good readings,
 * their means and how far these lie apart, beside what the bench alone would give at most.
 *
 *     mean = Σ Q ÷ m over the m shared lifts;  spread = (highest − lowest) ÷ mean of the means;  bench = q(0.9545; n, ν) u
 *
 * @param sweep  the leading set's sweep
 * @returns      the figures; undefined where fewer than two ports were read
 * @source       common practice; the bench's share by the studentised range, see `studentisedRange`
 * @example      portToPort({ points: [] }) // undefined
 */
export function portToPort(sweep: Sweep): PortToPort | undefined {
  const owns = ownSweeps(sweep);
  if (owns.length < 2) return undefined;
  const means = portMeans(sweep, owns);
  const lifts = means[0]?.readings.map(({ lift }) => lift) ?? [];
  const whole = means.reduce((sum, { mean }) => sum + mean, 0) / means.length;
  const spread = portSpread(means.map(({ mean }) => mean));
  const bench = spread === undefined ? undefined : benchSpread(means);
  return {
    lifts_m: lifts,
    ...(lifts.length > 0 && whole > NO_FLOW ? { mean_m3_s: whole } : {}),
    cylinders: owns.map((own) => {
      const mean = lifts.length === 0 ? undefined : means.find(({ port }) => port === own.port)?.mean;
      return {
        ...portName(own),
        full: sweep.full.includes(own.port),
        readings: own.sweep.shown.map(({ lift, flow, repeats, doubtful, noisy }) => ({
          lift_m: lift,
          flow_m3_s: flow,
          repeats,
          ...(doubtful ? { doubtful: true as const } : {}),
          ...(noisy ? { noisy: true as const } : {}),
        })),
        ...(mean === undefined ? {} : { mean_m3_s: mean }),
        ...(mean === undefined || !(whole > NO_FLOW) ? {} : { deviation_ratio: mean / whole - 1 }),
      };
    }),
    ...(spread === undefined ? {} : { spread_ratio: spread }),
    ...(bench === undefined ? {} : { from_bench_ratio: bench }),
  };
}

/**
 * Peak and mean of each port, over the lifts of `portToPort`; of a single port over all its lifts.
 *
 *     max Q_i,  Σ Q ÷ m
 *
 * @param sweep     the leading set's sweep
 * @param evenness  its port to port, if two or more were read
 * @returns         one entry a port with a mean, in order of cylinder and hand
 * @source          common practice
 * @example         cylinderFigures({ good: [], points: [] }, undefined) // []
 */
export function cylinderFigures(sweep: Sweep, evenness: PortToPort | undefined): SideFigures["cylinders"] {
  if (evenness !== undefined) {
    return evenness.cylinders.flatMap(({ cylinder, hand, readings, mean_m3_s: mean }) => {
      const good = readings.filter(({ doubtful }) => !doubtful).map(({ flow_m3_s }) => flow_m3_s);
      const port = { cylinder, ...(hand === undefined ? {} : { hand }) };
      return mean === undefined ? [] : [{ ...port, peak_flow_m3_s: Math.max(...good), mean_flow_m3_s: mean }];
    });
  }
  const flows = sweep.good.map(({ flow }) => flow);
  const [port] = ownSweeps(sweep);
  if (port === undefined || flows.length === 0) return [];
  const mean = flows.reduce((sum, flow) => sum + flow, 0) / flows.length;
  return [{ ...portName(port), peak_flow_m3_s: Math.max(...flows), mean_flow_m3_s: mean }];
}

/**
 * Spread from port to port.
 *
 *     (highest − lowest) ÷ mean of the ports' means
 *
 * @param means  mean flow of each port [m³/s]
 * @returns      spread [1]; undefined for fewer than two ports or no flow
 * @source       common practice
 * @example      portSpread([0.09, 0.1, 0.11]) // 0.2
 */
export function portSpread(means: readonly number[]): number | undefined {
  const mean = means.reduce((sum, value) => sum + value, 0) / means.length;
  return means.length > 1 && mean > NO_FLOW ? (Math.max(...means) - Math.min(...means)) / mean : undefined;
}

const ownSweeps = (sweep: Sweep): OwnSweep[] =>
  measuredPorts(sweep.points)
    .toSorted((a, b) => a.localeCompare(b, "en", { numeric: true }))
    .map((port) => ({ port, sweep: narrowSweep(sweep, [port]) }));

function portName({ sweep }: OwnSweep) {
  const { cylinder, hand } = sweep.points.find(({ port }) => sweep.ports.includes(port))!.run;
  return { cylinder, ...(hand === undefined ? {} : { hand }) };
}

/** Means of the ports of the curve's hand that have good readings, over the lifts that all of them have. */
function portMeans(sweep: Sweep, owns: readonly OwnSweep[]): PortMean[] {
  const hand = handOfPort(sweep.ports[0] ?? "");
  const alike = owns.filter(({ port, sweep: own }) => handOfPort(port) === hand && own.good.length > 0);
  const lifts = sharedLifts(alike.map(({ sweep: own }) => own.good.map(({ lift }) => lift)));
  return alike.map(({ port, sweep: own }) => {
    const readings = lifts.map((lift) => own.good.find((reading) => sameLift(reading.lift, lift))!);
    return { port, readings, mean: readings.reduce((sum, { flow }) => sum + flow, 0) / readings.length };
  });
}

/** Errors that all ports of a set share: they move the means together. */
const SHARED: readonly Term["part"][] = ["accuracy", "leakage", "conversion"];

/**
 * The spread that the bench alone would exceed once in twenty-two times: of so many means, each with its own mount.
 *
 *     q(0.9545; n, ν) u,  u² = Σ (u_i ÷ mean_i)² ÷ n
 */
function benchSpread(means: readonly PortMean[]): number | undefined {
  const budgets = means.map(({ port, readings }) =>
    readings.flatMap(({ terms }) =>
      (terms ?? []).filter(({ part }) => !SHARED.includes(part)).map((term) => ofPort(term, port)),
    ),
  );
  const isKnown = ({ readings, mean }: PortMean) =>
    mean > NO_FLOW && readings.every(({ terms }) => terms !== undefined);
  if (!means.every(isKnown)) return undefined;
  const { u, dof } = combineInputs(
    budgets,
    means.map(({ mean, readings }) => 1 / (readings.length * mean * Math.sqrt(means.length))),
  );
  return studentisedRange(means.length, dof) * u;
}

/** The same error, of this port alone. */
const ofPort = (term: Term, port: string): Term => ({
  ...term,
  error: `${port} ${term.error}`,
  ...(term.errorAtLift === undefined ? {} : { errorAtLift: `${port} ${term.errorAtLift}` }),
});
