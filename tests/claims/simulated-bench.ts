import type { Bench, Model, Reading } from "../../src/model/model.ts";
import { ratio } from "../../src/units/quantity.ts";
import { cfm, inches, modelOf, type Row, type RunSketch } from "../figures/model-fixture.ts";
import type { Random } from "./random.ts";

/** Standard deviations of one mount and of one reading, as shares of the flow. */
export type Scatter = { readonly remounting: number; readonly repeatability: number };
export const GOOD: Scatter = { remounting: 0.006, repeatability: 0.004 };
export const SLOPPY: Scatter = { remounting: 0.01, repeatability: 0.008 };

/** A bench with a known scatter, and what of it the shop states. */
export type SimulatedBench = {
  readonly scatter: Scatter;
  /** Sweeps of one mount, mounts of one stage. */
  readonly sweeps: number;
  readonly mounts: number;
  readonly states: readonly ("repeatability" | "remount")[];
  /** The dial's zero is off by as much as the stated `lift_setting` allows, anew at each mount. */
  readonly dialZero?: boolean;
  /** A low and a high range, each with its own error within the stated accuracy. */
  readonly twoRanges?: boolean;
};

/** How the second stage differs from the first. */
export type Change = "none" | "5 % everywhere" | "3 % everywhere" | "crossing by 4 %" | "above mid lift" | "plateau";

export type Simulated = {
  readonly model: Model;
  /** True change of the mean flow between two lifts [in]. */
  readonly meanChange: (from: number, to: number) => number;
  /** True change at a lift [in]. */
  readonly changeAt: (lift: number) => number;
  /** Where the second stage does not rise [in]; a change `plateau` only. */
  readonly plateau: { readonly from: number; readonly to: number };
};

/** Valve of the simulated port, as in the model's fixture [in]. */
export const VALVE = 44 / 25.4;
const LIFT_SETTING = 0.002;
const ACCURACY = 0.015;
const PLATEAU = 0.1;

/** As many lifts as a porter reads [in]: every tenth of an inch, every twentieth, every fortieth. */
export const LIFTS = {
  6: Array.from({ length: 6 }, (_, k) => (k + 1) / 10),
  10: Array.from({ length: 10 }, (_, k) => (k + 1) / 20),
  23: Array.from({ length: 23 }, (_, k) => (k + 1) / 40),
} as const;
export type LiftCount = keyof typeof LIFTS;

type FlowCurve = (lift: number) => number;

/** Intake of one cylinder, two stages, on such a bench. Readings are typed to 0.1 cfm. */
export function simulateJob(bench: SimulatedBench, count: LiftCount, change: Change, random: Random): Simulated {
  const lifts = LIFTS[count];
  const before = drawCurve(random);
  const plateau = drawPlateau(count, random);
  const changeAt = (lift: number) => relativeChange(change, lift, lifts[lifts.length - 1]!);
  const after: FlowCurve =
    change === "plateau"
      ? (lift) => before(lift <= plateau.from ? lift : Math.max(plateau.from, lift - PLATEAU))
      : (lift) => before(lift) * (1 + changeAt(lift));
  const ranges = { low: 1 + random.normal(ACCURACY / 2), high: 1 + random.normal(ACCURACY / 2) };
  const limit = before(0.6) * random.uniform(0.5, 0.9);
  const stages = [before, after].map((curve, k) => {
    // The range is changed a little earlier the second time, so that some lift is read on both.
    const isLow = (lift: number) => bench.twoRanges === true && curve(lift) < limit * (k === 0 ? 1 : 0.9);
    const error = (lift: number) => (bench.twoRanges ? ranges[isLow(lift) ? "low" : "high"] : 1);
    return { isLow, runs: drawRuns(bench, (lift) => curve(lift) * error(lift), lifts, random) };
  });
  const model = modelOf({
    bench: statedBench(bench),
    stages: stages.map(({ runs }, k) => ({ name: `Stage ${k + 1}`, intake: {}, runs })),
  });
  return {
    model: bench.twoRanges ? withRanges(model, stages) : model,
    meanChange: (from, to) => meanOf(after, from, to) / meanOf(before, from, to) - 1,
    changeAt,
    plateau,
  };
}

function statedBench({ states, scatter, twoRanges }: SimulatedBench): Partial<Bench> {
  return {
    name: "Bench",
    liftSetting: inches(LIFT_SETTING),
    liftSettingIsDefault: false,
    resolution: cfm(0.1),
    ...(states.includes("repeatability") && {
      repeatability: { kind: "expanded", value: ratio(2 * scatter.repeatability) },
    }),
    ...(states.includes("remount") && { remount: ratio(2 * scatter.remounting) }),
    ...(twoRanges && { accuracy: ratio(ACCURACY) }),
  };
}

/** A port that rises with the curtain and levels off at what its smallest section passes [cfm]. */
function drawCurve(random: Random): FlowCurve {
  const rise = random.uniform(500, 600);
  const most = random.uniform(150, 190);
  const bend = random.uniform(3, 5);
  return (lift) => (lift <= 0 ? 0 : ((rise * lift) ** -bend + most ** -bend) ** (-1 / bend));
}

/** Between readings, and far enough below the last one and above the first. */
function drawPlateau(count: LiftCount, random: Random): Simulated["plateau"] {
  const from = count === 6 ? 0.2 : random.uniform(0.1, 0.25);
  return { from, to: from + PLATEAU };
}

function relativeChange(change: Change, lift: number, last: number): number {
  const share = (low: number, high: number) => Math.min(1, Math.max(0, (lift - low) / (high - low)));
  switch (change) {
    case "5 % everywhere":
      return 0.05;
    case "3 % everywhere":
      return 0.03;
    case "crossing by 4 %":
      return -0.04 + 0.08 * share(0.4 * last, 0.6 * last);
    case "above mid lift":
      return 0.08 * share(0.22 * VALVE, 0.28 * VALVE);
    default:
      return 0;
  }
}

function drawRuns(bench: SimulatedBench, curve: FlowCurve, lifts: readonly number[], random: Random): RunSketch[] {
  const { scatter, sweeps, mounts, dialZero } = bench;
  return Array.from({ length: mounts }, (_, k) => k + 1).flatMap((mount) => {
    const mounted = 1 + random.normal(scatter.remounting);
    const zero = dialZero ? random.normal(LIFT_SETTING / 2) : 0;
    return Array.from({ length: sweeps }, () => ({
      mount,
      rows: lifts.map((lift): Row => {
        const flow = curve(lift + zero) * mounted * (1 + random.normal(scatter.repeatability));
        return [lift, Math.round(flow * 10) / 10];
      }),
    }));
  });
}

/** Each reading with the name of the range that it was read on. */
function withRanges(model: Model, stages: readonly { readonly isLow: (lift: number) => boolean }[]): Model {
  const named = (reading: Reading, k: number): Reading => ({
    ...reading,
    range: stages[k]!.isLow(reading.lift / inches(1)) ? "low" : "high",
  });
  return {
    ...model,
    stages: model.stages.map((stage, k) => ({
      ...stage,
      sets: stage.sets.map((set) => ({
        ...set,
        runs: set.runs.map((run) => ({
          ...run,
          readings: { ...run.readings, intake: run.readings.intake.map((reading) => named(reading, k)) },
        })),
      })),
    })),
  };
}

/** Mean of a smooth curve by the midpoint rule. */
function meanOf(curve: FlowCurve, from: number, to: number): number {
  const steps = 200;
  let sum = 0;
  for (let k = 0; k < steps; k++) sum += curve(from + ((k + 0.5) / steps) * (to - from));
  return sum / steps;
}
