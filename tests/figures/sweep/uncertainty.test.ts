import { describe, expect, test } from "vitest";
import { conversionError } from "../../../src/figures/air/ideal-flow.ts";
import { computeFigures } from "../../../src/figures/compute-figures.ts";
import type { Curve } from "../../../src/figures/math/pchip.ts";
import { studentT } from "../../../src/figures/math/student-t.ts";
import type { Bench } from "../../../src/model/model.ts";
import { cubicMetresPerSecond, metres, ratio } from "../../../src/units/quantity.ts";
import { CFM, cfm, INCH, inches, inchesOfWater, modelOf, type Row, type StageSketch } from "../model-fixture.ts";
import { curveAt, flowCurve, meanFlow } from "../without-units.ts";

/** A bench with no error at all but those given. */
const only = (changes: Partial<Bench>): Partial<Bench> => ({
  liftSetting: metres(0),
  resolution: cubicMetresPerSecond(0),
  remount: ratio(0),
  ...changes,
});
const half = (value: number) => ({ kind: "expanded", value: ratio(value) }) as const;
const intakeOf = (bench: Partial<Bench>, stage: StageSketch) =>
  computeFigures(modelOf({ bench, stages: [{ intake: {}, ...stage }] })).stages[0]!.intake!;
const relative = (reading: { flow_m3_s: number; uncertainty_m3_s?: number } | undefined) =>
  reading!.uncertainty_m3_s! / reading!.flow_m3_s;

describe("hand-worked budgets", () => {
  // NIST TN 1297 table B.1: t = 4.53 and 2.87 for 3 and 5 readings; U = t s ÷ √n.
  test.each([
    [[100, 102, 101], 4.53],
    [[100, 102, 101, 99, 98], 2.87],
  ])("repeats %j alone are expanded with t = %f", (flows, t) => {
    const mean = flows.reduce((sum, flow) => sum + flow, 0) / flows.length;
    const s = Math.sqrt(flows.reduce((sum, flow) => sum + (flow - mean) ** 2, 0) / (flows.length - 1));
    const [reading] = intakeOf(only({}), { flow: flows.map((flow): Row => [0.3, flow]) }).readings;
    expect(reading!.repeats).toBe(flows.length);
    expect(Math.abs(relative(reading) / (s / Math.sqrt(flows.length) / mean) - t)).toBeLessThanOrEqual(0.005);
  });
  test.each([
    ["stated repeatability", { repeatability: half(0.008) }, 0.008],
    [
      "its spread over five",
      { repeatability: { kind: "range", spread: ratio(0.012), of: 5 } as const },
      studentT(3.874) * (0.012 / 2.326),
    ],
    ["with accuracy", { repeatability: half(0.008), accuracy: ratio(0.015) }, 0.017],
    ["with re-mounting", { repeatability: half(0.006), remount: ratio(0.008) }, 0.01],
    // A digit of 1 cfm in 100: ± 1 ÷ √12 × 2 %, with ± 0.8 %.
    [
      "with resolution",
      { repeatability: half(0.008), resolution: cfm(1) },
      Math.hypot(0.008, (2 * 0.01) / Math.sqrt(12)),
    ],
    // A straight curve of 1 % a 0.003 in: ± 0.002 in is ± 2/3 %.
    ["with lift setting", { repeatability: half(0.008), liftSetting: inches(0.002) }, Math.hypot(0.008, 0.002 / 0.3)],
  ] as const)("%s", (_, bench, expected) => {
    const { readings } = intakeOf(only(bench), { flow: [[0.3, 100]] });
    expect(Math.abs(relative(readings[0]) / expected - 1)).toBeLessThan(2e-4);
  });
  test("conversion from 10 inH2O is a rectangular half-width", () => {
    const { air } = modelOf({}).reference;
    const e = conversionError("intake", inchesOfWater(10), inchesOfWater(28), air);
    const { readings } = intakeOf(only({ repeatability: half(0.008), testPressure: inchesOfWater(10) }), {
      flow: [[0.3, 100]],
    });
    expect(relative(readings[0])).toBeCloseTo(Math.hypot(0.008, (2 * e) / Math.sqrt(3)), 6);
  });
  test("four readings that scatter by 1 %: s ÷ √4 with three degrees of freedom", () => {
    // 99, 101, 99, 101: s = 1.1547.
    const rows: Row[] = [99, 101, 99, 101].map((flow) => [0.3, flow]);
    expect(relative(intakeOf(only({}), { flow: rows }).readings[0])).toBeCloseTo(
      (studentT(3) * 1.1547005) / 2 / 100,
      7,
    );
  });
  test("two ports: half the errors of each, added in quadrature", () => {
    const bench = only({ repeatability: half(0.01) });
    const both = intakeOf(bench, { runs: [{ rows: [[0.3, 100]] }, { cylinder: 2, rows: [[0.3, 100]] }] }).readings[0];
    expect(relative(both)).toBeCloseTo(0.01 / Math.SQRT2, 6);
  });
  test("sweeps with the head taken off between them: one mean of so many mounts", () => {
    const runs = [99, 101, 100].map((flow, k) => ({ mount: k + 1, rows: [[0.3, flow]] as Row[] }));
    const known = intakeOf(only({ repeatability: half(0.008), remount: ratio(0.012) }), { runs }).readings[0]!;
    expect(known).toMatchObject({ repeats: 1, mounts: 3 });
    expect(relative(known)).toBeCloseTo(Math.hypot(0.008, 0.012) / Math.sqrt(3), 6);
    // Repeats on one mount come before what the bench states.
    const own = { mount: 1, rows: [98, 99, 100].map((flow): Row => [0.3, flow]) };
    const pooled = intakeOf(only({ repeatability: half(0.008) }), { runs: [own, ...runs.slice(1)] }).readings[0];
    expect(relative(pooled)).toBeCloseTo((studentT(2) * (1 / 99)) / Math.sqrt(5), 6);
    // Over one lift nothing tells what of the distance is re-mounting.
    expect(intakeOf(only({}), { runs }).readings[0]).not.toHaveProperty("uncertainty_m3_s");
  });
  test("without repeats or a repeatability there is no ±, and no verdict", () => {
    const figures = computeFigures(
      modelOf({ bench: { accuracy: ratio(0.015) }, stages: [{ flow: [[0.3, 100]] }, { flow: [[0.3, 150]] }] }),
    );
    expect(figures.stages[0]!.intake!.readings[0]!.uncertainty_m3_s).toBeUndefined();
    expect(figures.comparisons[0]!.verdict_withheld).toBe("flowed once");
    expect(figures.comparisons[0]!.changes[0]).not.toHaveProperty("verdict");
    expect(figures.comparisons[0]!.changes[0]!.uncertainty_m3_s).toBeUndefined();
  });
});

describe("what cancels", () => {
  const sweep = (by: number): Row[] => [
    [0.1, 40 * by],
    [0.2, 80 * by],
    [0.3, 110 * by],
    [0.4, 130 * by],
  ];
  const changeOf = (first: Partial<Bench>, second: Partial<Bench>, more: Partial<StageSketch> = {}) => {
    const stages = [
      { name: "As received", bench: first, flow: sweep(1), ...more },
      { name: "Finished", bench: second, flow: sweep(1.05), ...more },
    ];
    return computeFigures(modelOf({ stages })).comparisons[0]!;
  };
  const base = only({ repeatability: half(0.01) });
  const plain = changeOf(base, base);

  test("accuracy of one bench does, of two benches does not", () => {
    const same = changeOf({ ...base, accuracy: ratio(0.03) }, { ...base, accuracy: ratio(0.03) });
    expect(same.mean_change_uncertainty_ratio).toBeCloseTo(plain.mean_change_uncertainty_ratio!, 9);
    // In a difference it counts by as much as the two differ.
    const change = same.changes[1]!;
    const both = Math.hypot(plain.changes[1]!.uncertainty_m3_s!, 0.03 * change.change_m3_s);
    expect(change.uncertainty_m3_s! / both).toBeCloseTo(1, 6);
    const unlike = changeOf(
      { ...base, name: "A", accuracy: ratio(0.03) },
      { ...base, name: "B", accuracy: ratio(0.03) },
    );
    expect(unlike.mean_change_uncertainty_ratio).toBeGreaterThan(0.03);
    expect(unlike.like_for_like).toBe(false);
  });
  test("conversion does at one pressure, and does not at two", () => {
    const ten = { ...base, testPressure: inchesOfWater(10) };
    expect(changeOf(ten, ten).mean_change_uncertainty_ratio).toBeCloseTo(plain.mean_change_uncertainty_ratio!, 9);
    expect(changeOf(ten, base).mean_change_uncertainty_ratio).toBeGreaterThan(
      plain.mean_change_uncertainty_ratio! * 1.5,
    );
  });
  test("re-mounting never does between two stages, whatever their dates: the head was off the bench to be worked on", () => {
    const mounted = { ...base, remount: ratio(0.02) };
    const on = (first: string | undefined, second: string | undefined) => {
      const stages = [
        { name: "As received", date: first, bench: mounted, flow: sweep(1) },
        { name: "Finished", date: second, bench: mounted, flow: sweep(1.05) },
      ];
      return computeFigures(modelOf({ stages })).comparisons[0]!.mean_change_uncertainty_ratio!;
    };
    const expected = Math.hypot(plain.mean_change_uncertainty_ratio!, 0.02 * 1.05 * Math.SQRT2);
    for (const [first, second] of [
      ["2026-03-01", "2026-03-01"],
      ["2026-03-01", "2026-03-02"],
      [undefined, undefined],
    ])
      expect(on(first, second)).toBeCloseTo(expected, 6);
  });
});

// GUM Supplement 1 (JCGM 101:2008): the measurement is played many times with its errors drawn, and the spread of what
// comes out is compared with the ± computed.
describe("played many times", () => {
  let seed = 20260318;
  const uniform = () => {
    seed = (seed + 0x6d2b79f5) | 0;
    let t = Math.imul(seed ^ (seed >>> 15), 1 | seed);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  const normal = () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());

  const lifts = [0.1, 0.2, 0.3, 0.4, 0.5];
  const flows = { received: [40, 79, 112, 134, 145], finished: [42, 84, 121, 146, 160] };
  const stated = { accuracy: 0.02, repeatability: 0.01, remount: 0.012, liftSetting: 0.003, digit: 1 };
  const bench: Partial<Bench> = {
    testPressure: inchesOfWater(10),
    accuracy: ratio(stated.accuracy),
    repeatability: half(stated.repeatability),
    remount: ratio(stated.remount),
    liftSetting: inches(stated.liftSetting),
    resolution: cfm(stated.digit),
  };
  const model = modelOf({
    bench,
    stages: [
      { name: "As received", runs: [{ rows: lifts.map((lift, k): Row => [lift, flows.received[k]]) }] },
      {
        name: "Finished",
        runs: [
          { mount: 1, rows: lifts.map((lift, k): Row => [lift, flows.finished[k]]) },
          { mount: 2, rows: lifts.map((lift, k): Row => [lift, flows.finished[k]]) },
        ],
      },
    ],
  });
  const figures = computeFigures(model);
  const rule = Math.sqrt(2.8);
  const e = conversionError("intake", inchesOfWater(10), inchesOfWater(28), model.reference.air);
  const curveOf = (values: readonly number[]): Curve =>
    flowCurve(
      lifts.map((lift) => lift * INCH),
      values,
    );
  const truth = {
    received: curveOf(flows.received.map((flow) => flow * rule)),
    finished: curveOf(flows.finished.map((flow) => flow * rule)),
  };

  /**
   * One stage measured once: every error drawn from its own distribution, independent of how the ± is computed. A mount shifts
   * all its flows alike, and all its lifts, for the dial was set to zero on it.
   */
  const measure = (curve: Curve, mounts: number, bias: number) => {
    const drawn = Array.from({ length: mounts }, () => ({
      offset: (normal() * stated.remount) / 2,
      zero: (normal() * stated.liftSetting * INCH) / 2,
    }));
    return lifts.map((lift) => {
      const rounding = (uniform() - 0.5) * stated.digit * rule;
      const readings = drawn.map(
        ({ offset, zero }) =>
          flowPast(curve, lift * INCH + zero) * (1 + offset + (normal() * stated.repeatability) / 2),
      );
      return (readings.reduce((sum, value) => sum + value, 0) / mounts + rounding) * (1 + bias);
    });
  };
  /** Past the last reading the curve runs on with its last slope. */
  const flowPast = (curve: Curve, at: number): number => {
    const last = curve.x[curve.x.length - 1]!;
    return at > last ? curve.y[curve.y.length - 1]! + (at - last) * curve.d[curve.d.length - 1]! : curveAt(curve, at)!;
  };
  const deviation = (values: readonly number[]) => {
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1));
  };

  const trials = Array.from({ length: 30_000 }, () => {
    const bias = (normal() * stated.accuracy) / 2 + (2 * uniform() - 1) * e;
    const [before, after] = [measure(truth.received, 1, bias), measure(truth.finished, 2, bias)];
    const mean = (values: readonly number[]) => meanFlow(curveOf(values), 0.1 * INCH, 0.5 * INCH)!;
    return { before, after, meanBefore: mean(before), meanChange: mean(after) / mean(before) - 1 };
  });
  const within = (computed: number | undefined, values: readonly number[]) => {
    expect(computed).toBeGreaterThan(0);
    expect(Math.abs(computed! / (2 * deviation(values)) - 1)).toBeLessThan(0.05);
  };

  test.each([0, 1, 2, 3, 4])("the ± of a flow, reading %i", (k) => {
    const reading = figures.stages[0]!.intake!.readings[k]!;
    within(
      reading.uncertainty_m3_s! / CFM,
      trials.map((trial) => trial.before[k]!),
    );
  });
  test("the ± of a mean flow", () =>
    within(
      figures.stages[0]!.intake!.mean_flow!.uncertainty_m3_s! / CFM,
      trials.map((trial) => trial.meanBefore),
    ));
  test.each([0, 1, 2, 3, 4])("the ± of a change, reading %i", (k) => {
    // The bench's error of proportion acts on the change itself.
    within(
      figures.comparisons[0]!.changes[k]!.uncertainty_m3_s! / CFM,
      trials.map((trial) => trial.after[k]! - trial.before[k]!),
    );
  });
  test("the ± of a mean change", () =>
    within(
      figures.comparisons[0]!.mean_change_uncertainty_ratio,
      trials.map((trial) => trial.meanChange),
    ));
  // A wrong ± could pass only if it did not matter: with any one source of error left out, some ± above misses what was
  // played by more than the 5 % allowed.
  test.each([
    ["accuracy", { accuracy: ratio(0) }],
    ["repeatability", { repeatability: half(1e-6) }],
    ["re-mounting", { remount: ratio(0) }],
    ["lift setting", { liftSetting: metres(0) }],
    ["resolution", { resolution: cubicMetresPerSecond(0) }],
    ["conversion", "at 28"],
  ] as const)("would show if %s were forgotten", (_, change) => {
    const by = change === "at 28" ? rule : 1;
    const without: Partial<Bench> =
      change === "at 28"
        ? { ...bench, testPressure: inchesOfWater(28), resolution: cfm(stated.digit * rule) }
        : { ...bench, ...change };
    const rowsOf = (values: readonly number[]) => lifts.map((lift, k): Row => [lift, values[k]! * by]);
    const [after, again] = [1, 2].map((mount) => ({ mount, rows: rowsOf(flows.finished) }));
    const stages = [
      { name: "As received", runs: [{ rows: rowsOf(flows.received) }] },
      { name: "Finished", runs: [after!, again!] },
    ];
    const less = computeFigures(modelOf({ bench: without, stages }));
    const off = (computed: number, values: readonly number[]) => Math.abs(computed / (2 * deviation(values)) - 1);
    const misses = lifts.flatMap((_lift, k) => [
      off(
        less.stages[0]!.intake!.readings[k]!.uncertainty_m3_s! / CFM,
        trials.map((trial) => trial.before[k]!),
      ),
      off(
        less.comparisons[0]!.changes[k]!.uncertainty_m3_s! / CFM,
        trials.map((trial) => trial.after[k]! - trial.before[k]!),
      ),
    ]);
    expect(Math.max(...misses)).toBeGreaterThan(0.05);
  });
  test("really plays: every quantity scatters, and the accuracy that flows share is gone from their change", () => {
    const spread = (of: (trial: (typeof trials)[number]) => number) => deviation(trials.map(of));
    expect(spread((trial) => trial.before[4]!)).toBeGreaterThan(1);
    expect(spread((trial) => trial.meanChange)).toBeGreaterThan(0.003);
    expect(spread((trial) => trial.after[4]! - trial.before[4]!)).toBeLessThan(
      Math.hypot(
        spread((trial) => trial.after[4]!),
        spread((trial) => trial.before[4]!),
      ) / 1.5,
    );
  });
  test("the ± of the fall after the peak", () => {
    const falling = computeFigures(
      modelOf({
        bench: { ...bench, testPressure: inchesOfWater(28) },
        stages: [{ flow: lifts.map((lift, k): Row => [lift, [40, 79, 112, 145, 134][k]]) }],
      }),
    );
    const curve = curveOf([40, 79, 112, 145, 134]);
    const falls = trials.map(() => {
      const [peak, last] = measureTwo(curve);
      return last / peak - 1;
    });
    within(falling.stages[0]!.intake!.after_peak!.uncertainty, falls);
  });
  const measureTwo = (curve: Curve): [number, number] => {
    const offset = 1 + (normal() * stated.remount) / 2 + (normal() * stated.accuracy) / 2;
    const one = (k: number, flow: number) => {
      const setting = (normal() * stated.liftSetting * INCH * curve.d[k]!) / 2;
      return (flow * (1 + (normal() * stated.repeatability) / 2) + setting + (uniform() - 0.5) * stated.digit) * offset;
    };
    return [one(4, 145), one(5, 134)];
  };
});
