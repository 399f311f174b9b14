import type { Bench, FlowSet, Reading, Run, Side, Stage } from "../../model/model.ts";
import type { CubicMetresPerSecond, Metres } from "../../units/quantity.ts";
import { type Reference, readingToReference } from "./reading-to-reference.ts";

/** Origin of a sweep. */
export type SweepSource = {
  /** Distinguishes the heads of one computation; empty for the job's own. */
  readonly head: string;
  readonly stage: Stage;
  /** One of the stage's sets. */
  readonly set: FlowSet;
  readonly side: Side;
  /** Index of the only run that is read; absent, all are. */
  readonly run?: number;
};

/**
 * Name of a sweep, made from what it is read from.
 *
 *     JSON of head, stage, index of the set, side and run
 *
 * @param source  origin of the sweep
 * @returns       the name; different for any two sweeps of one computation
 * @example       sweepName({ head: "", stage: { name: "Finished", sets: [] }, side: "intake" }) // '["","Finished",-1,"intake",null]'
 */
export function sweepName({ head, stage, set, side, run }: SweepSource): string {
  return JSON.stringify([head, stage.name, stage.sets.indexOf(set), side, run]);
}

/** One typed reading, with its run, at reference conditions. */
export type Point = {
  readonly port: string;
  readonly run: Run;
  readonly reading: Reading;
  readonly lift: Metres;
  readonly flow: CubicMetresPerSecond;
};

/**
 * Name of the port that a run measured: one hand of one cylinder.
 *
 *     cylinder, and hand if any
 *
 * @param run  the run
 * @returns    the name; equal for runs that are compared with each other
 * @example    portKey({ cylinder: 5, hand: "end" }) // "5 end"
 */
export function portKey(run: Run): string {
  return run.hand === undefined ? `${run.cylinder}` : `${run.cylinder} ${run.hand}`;
}

/**
 * Hand of a port.
 *
 *     the name without its cylinder
 *
 * @param port  name of the port, see `portKey`
 * @returns     the hand; empty for a port without one
 * @example     handOfPort("5 end") // "end"
 */
export function handOfPort(port: string): string {
  return port.replace(/^\S+ ?/, "");
}

/**
 * Cylinder of a port.
 *
 *     the name without its hand
 *
 * @param port  name of the port, see `portKey`
 * @returns     the number of the cylinder
 * @example     cylinderOfPort("5 end") // 5
 */
export function cylinderOfPort(port: string): number {
  return Number.parseInt(port, 10);
}

/**
 * Readings of a set and side, converted to reference conditions; without those that are missing or struck out.
 *
 *     Q_ref of each reading, see `readingToReference`
 *
 * @param source     origin of the sweep
 * @param reference  reference test pressure and air
 * @returns          the readings, in the order of the runs
 * @example          readPoints({ side: "intake", set: { runs: [] } }, {}) // []
 */
export function readPoints({ set, side, run: only }: SweepSource, reference: Reference): Point[] {
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

/**
 * Whether a reading takes part in what is computed.
 *
 *     good ⇔ neither doubtful nor left out
 *
 * @param point  the reading
 * @returns      true for a good one, steady or not
 * @example      isGood({ reading: { kind: "doubtful" } }) // false
 */
export function isGood({ reading: { kind } }: Pick<Point, "reading">): boolean {
  return kind === "good" || kind === "noisy";
}

/**
 * Name of a bench among all of a computation: equal for what is measured on one bench.
 *
 *     its own name, else that of the file in which it stands
 *
 * @param bench  the bench
 * @returns      the name
 * @example      benchKey({ name: "Bench 2", file: "shop.yaml" }) // '["Bench 2"]'
 */
export function benchKey({ name, file }: Pick<Bench, "name" | "file">): string {
  return JSON.stringify(name === undefined ? [null, file] : [name]);
}
