import { describe, expect, test } from "vitest";
import { type FillingInput, fillsBetterAbove } from "../../../src/figures/engine/fills-better.ts";
import type { Comparison, EngineFigures } from "../../../src/figures/figures.ts";

// The gates of engine-speed.md, our own study; each silence has one test.

const LIFTS = [0.002, 0.004, 0.006, 0.008, 0.01];
const CAM = 0.0085;

/** A comparison with the same relative change at every lift and at the cam's. */
const comparison = (change: number, more: Partial<Comparison> = {}): Comparison => ({
  from: { stage: "As received" },
  to: { stage: "Finished" },
  side: "intake",
  like_for_like: true,
  differences: [],
  mean_change_ratio: change,
  mean_change_verdict: Math.abs(change) > 0.02 ? (change > 0 ? "clear gain" : "clear loss") : "within repeatability",
  crossovers_m: [],
  changes: [...LIFTS, CAM]
    .toSorted((a, b) => a - b)
    .map((lift) => ({
      lift_m: lift,
      from_m3_s: 10 * lift,
      change_m3_s: 10 * lift * change,
      change_ratio: change,
      uncertainty_m3_s: 0.2 * lift,
      joint_uncertainty_m3_s: 0.25 * lift,
      verdict: Math.abs(change) > 0.025 ? (change > 0 ? "clear gain" : "clear loss") : "within repeatability",
    })),
  ...more,
});
const engine = (speed: number | undefined) => ({ ...(speed ? { mean_inlet_mach_rpm: speed } : {}) }) as EngineFigures;

const told: FillingInput = {
  intake: comparison(0.15),
  exhaust: comparison(0.01),
  camLift: CAM,
  rpm: { from: 3000, to: 8000 },
  from: { engine: engine(6810), portVolume: 100e-6 },
  to: { engine: engine(7800), portVolume: 112e-6 },
};
const without = (change: Partial<FillingInput>) => fillsBetterAbove({ ...told, ...change });

test("more flow at every lift: the speed of the lesser head, up to the next 250", () => {
  expect(fillsBetterAbove(told)).toEqual({ better: "to", rpm: 7000 });
  expect(without({ from: { ...told.from, engine: engine(6750) } })).toEqual({ better: "to", rpm: 6750 });
});

test("swapping the heads swaps the sentence", () => {
  const swapped = comparison(1 / 1.15 - 1);
  expect(without({ intake: swapped, from: told.to, to: told.from })).toEqual({ better: "from", rpm: 7000 });
});

test("scaling both flows alike leaves none", () => {
  expect(without({ intake: comparison(0) })).toBeUndefined();
});

const changed = (by: (change: Comparison["changes"][number], i: number) => Comparison["changes"][number]) =>
  comparison(0.15, { changes: comparison(0.15).changes.map(by) });

describe("silence for", () => {
  test.each<[string, Partial<FillingInput>]>([
    [
      "crossing curves",
      {
        intake: changed((one, i) => (i === 0 ? { ...one, change_m3_s: -one.change_m3_s, verdict: "clear loss" } : one)),
      },
    ],
    ["equal curves", { intake: comparison(0) }],
    [
      "a gain inside ± at one lift",
      { intake: changed((one, i) => (i === 2 ? { ...one, verdict: "within repeatability" } : one)) },
    ],
    [
      "a gain inside the ± that all lifts share",
      { intake: changed((one, i) => (i === 1 ? { ...one, joint_uncertainty_m3_s: 1 } : one)) },
    ],
    ["no duration", { to: { ...told.to, engine: engine(undefined) } }],
    ["readings short of the cam's lift", { camLift: 0.0101 }],
    ["a port too large", { to: { ...told.to, portVolume: 116e-6 } }],
    [
      "a port 5 % larger where flow is not 10 % better",
      { intake: comparison(0.06), to: { ...told.to, portVolume: 105e-6 } },
    ],
    ["a port volume that is not known", { from: { ...told.from, portVolume: undefined } }],
    ["a speed above the range asked for", { rpm: { from: 3000, to: 6500 } }],
    ["a speed below it", { rpm: { from: 6900, to: 8000 } }],
    ["no range asked for", { rpm: undefined }],
    ["an exhaust clearly worse", { exhaust: comparison(-0.08) }],
    ["an exhaust not flowed", { exhaust: undefined }],
    ["other conditions", { intake: comparison(0.15, { like_for_like: false, differences: ["test pressure"] }) }],
    ["verdicts withheld", { intake: comparison(0.15, { verdict_withheld: "two benches" }) }],
  ])("%s", (_, change) => {
    expect(without(change)).toBeUndefined();
  });
  test("and told again at the edges of what is allowed", () => {
    expect(without({ to: { ...told.to, portVolume: 115e-6 } })).toBeDefined();
    expect(without({ intake: comparison(0.06), to: { ...told.to, portVolume: 103e-6 } })).toBeDefined();
  });
});
