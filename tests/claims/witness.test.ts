import { describe, expect, test } from "vitest";
import { computeFigures } from "../../src/figures/compute-figures.ts";
import type { Budget } from "../../src/figures/figures.ts";
import { ratio } from "../../src/units/quantity.ts";
import { CFM, cfm, inches, modelOf } from "../figures/model-fixture.ts";
import { createRandom } from "./random.ts";
import { type WitnessBench, type WitnessJob, type WitnessStage, witness } from "./witness.ts";

type Shape = {
  readonly name: string;
  readonly lifts: readonly number[];
  /** Sweeps of each mount, stage by stage. */
  readonly sweeps: readonly [readonly number[], readonly number[]];
  readonly gain: number;
  readonly bench: Partial<WitnessBench>;
};

const steps = (from: number, to: number, by: number) =>
  Array.from({ length: Math.round((to - from) / by) + 1 }, (_, k) => Number((from + k * by).toFixed(4)));
const COARSE = steps(0.1, 0.6, 0.1);
const FINE = steps(0.05, 0.5, 0.05);

/** Ten jobs with accuracy stated: what is typed and what is stated differs from each to the next. */
const JOBS: readonly Shape[] = [
  {
    name: "all stated, one sweep",
    lifts: COARSE,
    sweeps: [[1], [1]],
    gain: 0.05,
    bench: { repeatability: 0.008, remount: 0.012 },
  },
  {
    name: "3 % accuracy and a gain of 26 %",
    lifts: COARSE,
    sweeps: [[1], [1]],
    gain: 0.26,
    bench: { accuracy: 0.03, repeatability: 0.008, remount: 0.012 },
  },
  {
    name: "repeatability alone stated: the allowance",
    lifts: FINE,
    sweeps: [[1], [1]],
    gain: 0.08,
    bench: { repeatability: 0.01 },
  },
  { name: "own repeats, the allowance", lifts: COARSE, sweeps: [[2], [3]], gain: 0.06, bench: {} },
  { name: "own repeats, re-mounting stated", lifts: FINE, sweeps: [[3], [2]], gain: -0.04, bench: { remount: 0.01 } },
  {
    name: "three mounts a stage, nothing else",
    lifts: COARSE,
    sweeps: [
      [1, 1, 1],
      [1, 1, 1],
    ],
    gain: 0.1,
    bench: {},
  },
  {
    name: "mounts of unlike numbers of sweeps",
    lifts: COARSE,
    sweeps: [
      [2, 1, 1],
      [1, 2, 3],
    ],
    gain: 0.12,
    bench: { remount: 0.02 },
  },
  {
    name: "too few mounts to judge them by, and more in one stage",
    lifts: FINE,
    sweeps: [[1, 2], [2]],
    gain: 0.03,
    bench: { repeatability: 0.006 },
  },
  {
    name: "a coarse dial and a coarse scale",
    lifts: FINE,
    sweeps: [[1], [1]],
    gain: 0.15,
    bench: { liftSetting: 0.008, resolution: 1, repeatability: 0.01, remount: 0.012 },
  },
  {
    name: "a large loss on a bench of 5 % accuracy",
    lifts: COARSE,
    sweeps: [[2], [2]],
    gain: -0.3,
    bench: { accuracy: 0.05, liftSetting: 0.003 },
  },
];

const jobs = JOBS.map((shape, k) => {
  const job = draw(shape, k);
  return { ...shape, expected: witness(job), comparison: comparisonOf(job) };
});

/** ± of the program and of plain matrices agree to 0.1 %. */
const near = (mine: number | undefined, theirs: number) => expect(Math.abs(mine! / theirs - 1)).toBeLessThan(0.001);
const nearParts = (budget: Budget | undefined, parts: Readonly<Record<string, number>>) => {
  expect(Object.values(budget!.parts).reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 9);
  for (const [part, share] of Object.entries(parts))
    expect(budget!.parts[part as keyof Budget["parts"]] ?? 0).toBeCloseTo(share, 3);
};

describe.each(jobs)("$name", ({ expected, comparison }) => {
  test("mean change, its ± and budget", () => {
    const { mean_change_budget: budget } = comparison;
    expect(comparison.mean_change_ratio).toBeCloseTo(expected.mean.value, 9);
    near(comparison.mean_change_uncertainty_ratio, expected.mean.expanded);
    near(budget?.u, expected.mean.u);
    nearParts(budget, expected.mean.parts);
  });
  test("change at each lift, its ±, joint ± and budget", () => {
    const measured = comparison.changes.filter(({ interpolated }) => !interpolated);
    expect(measured).toHaveLength(expected.lifts.length);
    measured.forEach((change, k) => {
      const { joint_uncertainty_m3_s: joint, budget } = change;
      const theirs = expected.lifts[k]!;
      expect(change.change_m3_s / CFM).toBeCloseTo(theirs.value, 6);
      near(change.uncertainty_m3_s, theirs.expanded * CFM);
      near(joint, theirs.joint * CFM);
      nearParts(budget, theirs.parts);
    });
  });
});

test("accuracy counts in a difference as much as the two flows differ", () => {
  const [, large] = jobs;
  const { parts, u, value } = large!.expected.lifts[3]!;
  expect(Math.sqrt(parts.accuracy!) * u).toBeCloseTo(0.015 * value, 9);
  expect(large!.expected.mean.parts.accuracy).toBeCloseTo(0, 9);
});

function draw({ lifts, sweeps, gain, bench }: Shape, seed: number): WitnessJob {
  const random = createRandom(seed);
  const curve = (lift: number) => ((550 * lift) ** -4 + 170 ** -4) ** -0.25;
  const stage = (mounts: readonly number[], factor: number): WitnessStage =>
    mounts.map((count) => {
      const mounted = factor * (1 + random.normal(0.006));
      return Array.from({ length: count }, () =>
        lifts.map((lift) => Math.round(10 * curve(lift) * mounted * (1 + random.normal(0.004))) / 10),
      );
    });
  return {
    lifts,
    bench: { accuracy: 0.015, liftSetting: 0.002, resolution: 0.1, ...bench },
    stages: [stage(sweeps[0], 1), stage(sweeps[1], 1 + gain)],
  };
}

function comparisonOf({ lifts, bench, stages }: WitnessJob) {
  const { accuracy, repeatability, remount, liftSetting, resolution } = bench;
  const model = modelOf({
    bench: {
      accuracy: ratio(accuracy),
      liftSetting: inches(liftSetting),
      resolution: cfm(resolution),
      ...(remount !== undefined && { remount: ratio(remount) }),
      ...(repeatability !== undefined && { repeatability: { kind: "expanded", value: ratio(repeatability) } }),
    },
    stages: stages.map((mounts, k) => ({
      name: `Stage ${k + 1}`,
      intake: {},
      runs: mounts.flatMap((mount, m) =>
        mount.map((sweep) => ({ mount: m + 1, rows: sweep.map((flow, at) => [lifts[at]!, flow] as const) })),
      ),
    })),
  });
  return computeFigures(model).comparisons[0]!;
}
