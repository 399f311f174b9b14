import { REMOUNT_ALLOWANCE } from "../../model/constants.ts";
import type { Bench } from "../../model/model.ts";
import { sameLift } from "../../units/same-lift.ts";
import { INFINITE_DOF, NO_FLOW } from "../constants.ts";
import { distinctLifts } from "../math/lifts.ts";
import { type Deviation, pooledDeviation, statedDeviation } from "./repeatability.ts";

/** Relative standard uncertainties [1] of one reading and of one mount, with their degrees of freedom and origin. */
export type Scatter = {
  readonly repeatability?: {
    readonly from: "repeats" | "stated" | "mounts";
    readonly ratio: number;
    readonly dof: number;
  };
  readonly remounting: {
    readonly from: "own" | "stated" | "allowance";
    readonly ratio: number;
    readonly dof: number;
    /** Each cylinder's mounts are errors of their own; else the mounts of one number are one error for all cylinders. */
    readonly byCylinder: boolean;
  };
};

/** A good reading of a head on one bench and side. */
export type MountedReading = {
  /** What it measured: stage (or the one that it repeats), set, cylinder and hand. */
  readonly port: string;
  readonly cylinder: string;
  readonly mount: string;
  readonly lift: number;
  readonly flow: number;
};

/** Scatter that the readings of one head show on one bench and side. */
export type ShownScatter = {
  readonly repeats?: Deviation;
  /** Of readings within their mounts, where no lift was read twice in one mount. */
  readonly withinMounts?: Deviation;
  readonly betweenMounts?: Deviation;
  /** Cylinders that were mounted more than once. */
  readonly remounted: number;
};

/** Fewest degrees of freedom with which own repeats, or own mounts, take the place of a stated value. */
const LEAST_DOF = { repeats: 2, mounts: 3 } as const;

/**
 * Scatter that readings show: of repeats in one mount, of mounts, and within mounts.
 *
 *     d = Q ÷ mean of the M mounts at that lift, over the m lifts that all have; d̄ its mean over the lifts of a mount
 *     between: s² = Σ (d̄ − 1)² ÷ Σ (M − 1);  within: s² = Σ (d − d̄)² ÷ Σ (M − 1)(m − 1)
 *
 * @param readings  good readings of one head on one bench and side, all stages and sets of it
 * @returns         the deviations that can be told, and how many cylinders were mounted more than once
 * @source          JCGM 100:2008 (GUM), 4.2 and H.5 (analysis of variance)
 * @example         shownScatter([99, 101].map((flow, k) => ({ port: "1", cylinder: "1", mount: `${k}`, lift: 0.01, flow }))) // { remounted: 1, betweenMounts: { s: 0.0141421, dof: 1 } }
 */
export function shownScatter(readings: readonly MountedReading[]): ShownScatter {
  const repeats = pooledDeviation(repeatGroups(readings));
  const mounted = groupBy(readings, ({ port }) => port).flatMap((port) => mountDistances(port) ?? []);
  const between = deviation(mounted.map(({ means }) => [means.map((mean) => mean - 1), means.length - 1]));
  const within = deviation(
    mounted.map(({ ratios, means }) => [
      ratios.flatMap((row, k) => row.map((ratio) => ratio - means[k]!)),
      (means.length - 1) * (ratios[0]!.length - 1),
    ]),
  );
  return {
    remounted: new Set(mounted.map(({ cylinder }) => cylinder)).size,
    ...(repeats === undefined ? {} : { repeats }),
    ...(between === undefined ? {} : { betweenMounts: between }),
    ...(within === undefined || repeats !== undefined ? {} : { withinMounts: within }),
  };
}

/**
 * Scatter with which a sweep is judged: repeatability from repeats, else as stated, else from mounts; re-mounting from
 * mounts, else as stated, else an allowance. A single pair of repeats takes the place of no stated value and makes none.
 *
 *     repeatability: own (ν ≥ 2) | stated | within mounts (ν ≥ 2);  re-mounting: own (ν ≥ 3) | stated | max(allowance, own)
 *
 * @param shown  what the readings of the head show on that bench and side
 * @param bench  the bench
 * @returns      both, with their origin; without repeatability where there is none
 * @source       JCGM 100:2008 (GUM), 4.2 and 4.3; the allowance is common practice
 * @example      scatterOf({ remounted: 0 }, { remount: 0.012 }) // { remounting: { from: "stated", ratio: 0.006, dof: Infinity, byCylinder: false } }
 */
export function scatterOf(shown: ShownScatter, bench: Pick<Bench, "repeatability" | "remount">): Scatter {
  const repeatability = repeatabilityOf(shown, bench);
  return { ...(repeatability === undefined ? {} : { repeatability }), remounting: remountingOf(shown, bench) };
}

function repeatabilityOf(
  { repeats, withinMounts: within }: ShownScatter,
  bench: Pick<Bench, "repeatability">,
): Scatter["repeatability"] {
  if (repeats !== undefined && repeats.dof >= LEAST_DOF.repeats)
    return { from: "repeats", ratio: repeats.s, dof: repeats.dof };
  const stated = statedDeviation(bench);
  if (stated !== undefined) return { from: "stated", ratio: stated.s, dof: stated.dof };
  if (within === undefined || within.dof < LEAST_DOF.repeats) return undefined;
  return { from: "mounts", ratio: within.s, dof: within.dof };
}

function remountingOf(
  { betweenMounts: own, remounted }: ShownScatter,
  { remount }: Pick<Bench, "remount">,
): Scatter["remounting"] {
  if (own !== undefined && own.dof >= LEAST_DOF.mounts)
    return { from: "own", ratio: own.s, dof: own.dof, byCylinder: remounted > 1 };
  if (remount !== undefined) return { from: "stated", ratio: remount / 2, dof: INFINITE_DOF, byCylinder: false };
  // Few mounts that differ by more than the allowance count as a stated value: Student's t of 1 or 2 degrees of freedom would swamp them.
  const isOwn = own !== undefined && own.s > REMOUNT_ALLOWANCE / 2;
  return {
    ...(isOwn ? { from: "own", ratio: own.s } : { from: "allowance", ratio: REMOUNT_ALLOWANCE / 2 }),
    dof: INFINITE_DOF,
    byCylinder: false,
  };
}

/** Pooled deviation of groups of residuals, each with its degrees of freedom. */
function deviation(groups: readonly (readonly [residuals: readonly number[], dof: number])[]): Deviation | undefined {
  const dof = groups.reduce((sum, [, own]) => sum + own, 0);
  const squares = groups.flatMap(([residuals]) => residuals).reduce((sum, one) => sum + one * one, 0);
  return dof === 0 ? undefined : { s: Math.sqrt(squares / dof), dof };
}

type Distances = {
  readonly cylinder: string;
  /** Flow ÷ mean of the mounts, a row a mount, at the lifts that all mounts have. */
  readonly ratios: readonly (readonly number[])[];
  /** Mean of each row. */
  readonly means: readonly number[];
};

/** Distances of the mounts of one port from their mean; undefined without two mounts that share a lift. */
function mountDistances(readings: readonly MountedReading[]): Distances | undefined {
  const mounts = groupBy(readings, ({ mount }) => mount);
  if (mounts.length < 2) return undefined;
  const flows = distinctLifts(readings.map(({ lift }) => lift)).flatMap((lift) => {
    const here = mounts.map((mount) => meanFlowAt(mount, lift));
    return here.every((flow) => flow !== undefined && flow > NO_FLOW) ? [here as number[]] : [];
  });
  if (flows.length === 0) return undefined;
  const ratios = mounts.map((_, k) => flows.map((here) => here[k]! / average(here)));
  return { cylinder: readings[0]!.cylinder, ratios, means: ratios.map(average) };
}

function meanFlowAt(mount: readonly MountedReading[], lift: number): number | undefined {
  const here = mount.filter((reading) => sameLift(reading.lift, lift));
  return here.length === 0 ? undefined : average(here.map(({ flow }) => flow));
}

const average = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

/** Flows of one port at one lift in one mount. */
function repeatGroups(readings: readonly MountedReading[]): number[][] {
  return groupBy(readings, ({ port, mount }) => JSON.stringify([port, mount])).flatMap((mount) =>
    distinctLifts(mount.map(({ lift }) => lift)).map((lift) =>
      mount.filter((reading) => sameLift(reading.lift, lift)).map(({ flow }) => flow),
    ),
  );
}

function groupBy<T>(all: readonly T[], key: (one: T) => string): readonly (readonly T[])[] {
  const groups = new Map<string, T[]>();
  for (const one of all) {
    const name = key(one);
    const group = groups.get(name);
    if (group === undefined) groups.set(name, [one]);
    else group.push(one);
  }
  return [...groups.values()];
}
