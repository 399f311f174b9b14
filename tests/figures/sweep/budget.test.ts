import { describe, expect, test } from "vitest";
import { conversionError } from "../../../src/figures/air/ideal-flow.ts";
import { computeFigures } from "../../../src/figures/compute-figures.ts";
import { ratio } from "../../../src/units/quantity.ts";
import {
  CFM,
  cfm,
  INCH_OF_WATER,
  inches,
  inchesOfWater,
  modelOf,
  type Row,
  type RunSketch,
  type Sketch,
} from "../model-fixture.ts";

/** A bench without any error but what is given; readings are typed to 0.1 cfm. */
const none = { liftSetting: inches(0), resolution: cfm(0), remount: ratio(0) };
const half = (value: number) => ({ repeatability: { kind: "expanded", value: ratio(value) } as const });
const flow = (...flows: number[]): Row[] => flows.map((one): Row => [0.3, one]);
const readingOf = (bench: Sketch["bench"], ...runs: readonly RunSketch[]) =>
  computeFigures(modelOf({ bench, stages: [{ intake: {}, runs }] })).stages[0]!.intake!.readings[0]!;
/** Standard uncertainty of the reading [cfm]; its ± is twice that, to a millionth, where every part is stated outright. */
const u = (...given: Parameters<typeof readingOf>) => readingOf(...given).uncertainty_m3_s! / CFM / 2;
const one: RunSketch = { rows: flow(100) };
const again: RunSketch = { mount: 2, rows: flow(100) };
const five: RunSketch = { cylinder: 5, rows: flow(100) };

/** JCGM 100:2008 (GUM), 4.3 and 5.1, with one part of the budget at a time. */
describe("the budget of a reading of 100 cfm, part by part", () => {
  const sure = half(0);
  test("repeatability: 0.5 % of it, less by the root of readings, and of ports", () => {
    const bench = { ...none, ...half(0.01) };
    expect(u(bench, one)).toBeCloseTo(0.5, 5);
    expect(u(bench, { rows: flow(100, 100) })).toBeCloseTo(0.5 / Math.SQRT2, 5);
    expect(u(bench, one, five)).toBeCloseTo(0.5 / Math.SQRT2, 5);
  });
  test("resolution: a last digit of 0.6 over √12, as stated, else as typed", () => {
    expect(u({ ...none, ...sure, resolution: cfm(0.6) }, one)).toBeCloseTo(0.6 / Math.sqrt(12), 5);
    expect(u({ ...none, ...sure, resolution: undefined } as never, one)).toBeCloseTo(0.1 / Math.sqrt(12), 5);
    // Two readings of one port have one scale, two ports are read by themselves.
    const bench = { ...none, ...sure, resolution: cfm(0.6) };
    expect(u(bench, { rows: flow(100, 100) })).toBeCloseTo(0.6 / Math.sqrt(12), 5);
    expect(u(bench, one, five)).toBeCloseTo(0.6 / Math.sqrt(24), 5);
  });
  test("accuracy: half of what is stated, the same for every reading and port", () => {
    const bench = { ...none, ...sure, accuracy: ratio(0.015) };
    for (const runs of [[one], [one, again], [one, five], [one, again, five]])
      expect(u(bench, ...runs)).toBeCloseTo(0.75, 5);
  });
  test("re-mounting: half of what is stated, less by the root of mounts, alike for all ports", () => {
    const bench = { ...none, ...sure, remount: ratio(0.014) };
    expect(u(bench, one)).toBeCloseTo(0.7, 5);
    expect(u(bench, { rows: flow(100, 100) })).toBeCloseTo(0.7, 5);
    expect(u(bench, one, again)).toBeCloseTo(0.7 / Math.SQRT2, 5);
    // The day is part of what is stated.
    expect(u(bench, one, five)).toBeCloseTo(0.7, 5);
    // Two readings on the one mount, one on the other: √(4 + 1) ÷ 3.
    expect(u(bench, { rows: flow(100, 100) }, again)).toBeCloseTo((0.7 * Math.sqrt(5)) / 3, 5);
    // Nobody stated it: ± 2 % is allowed for.
    expect(u({ ...none, ...sure, remount: undefined } as never, one)).toBeCloseTo(1, 5);
  });
  test("re-mounting of the job's own mounts: less by the root of ports too, where two were mounted more than once", () => {
    const mounts = (cylinder: number, ...flows: readonly number[]) =>
      flows.map((one, k): RunSketch => ({ cylinder, mount: k + 1, rows: flow(one) }));
    // s² = Σ (0.02² + 0.01²) · 2 ÷ 3 of one port, of two ports with twice the freedom.
    const s = 100 * Math.sqrt((2 * (0.02 ** 2 + 0.01 ** 2)) / 3);
    const reading = (...runs: readonly RunSketch[]) => readingOf({ ...none, ...half(0) }, ...runs).budget!;
    expect(reading(...mounts(1, 98, 99, 101, 102))).toMatchObject({
      u: expect.closeTo((s * CFM) / 2, 9),
      dof: 3,
      parts: { remounting: 1 },
    });
    expect(reading(...mounts(1, 98, 99, 101, 102), ...mounts(5, 98, 99, 101, 102))).toMatchObject({
      u: expect.closeTo((s * CFM) / 2 / Math.SQRT2, 9),
      dof: 6,
    });
    // Else the first mounts of both are one error: an eighth and a half of the mean.
    const first = (s * 98) / 100 / 8 + s / 2;
    const others = [99, 101, 102].map((one) => (s * one) / 100 / 8);
    const { u: whole } = reading(...mounts(1, 98, 99, 101, 102), five);
    expect(whole / CFM).toBeCloseTo(Math.hypot(first, ...others), 2);
  });
  test("lift setting: half of it by the slope there, less by the root of mounts and of ports", () => {
    const bench = { ...none, ...sure, liftSetting: inches(0.003) };
    // The curve rises straight from 0 to 100 cfm at 0.3 in.
    const whole = ((100 / 0.3) * 0.003) / 2;
    expect(u(bench, one)).toBeCloseTo(whole, 5);
    expect(u(bench, { rows: flow(100, 100) })).toBeCloseTo(whole, 5);
    expect(u(bench, one, again)).toBeCloseTo(whole / Math.SQRT2, 5);
    expect(u(bench, one, five)).toBeCloseTo(whole / Math.SQRT2, 5);
  });
  test("leakage: its digit, its own repeatability, and half the way between two laws of seepage", () => {
    const leakage = { intake: cfm(1), testPressure: inchesOfWater(10) };
    // Read at 10 inH2O and taken off at 28 as an orifice: 1 · √2.8; as seepage it would be 2.8.
    const leak = Math.sqrt(2.8);
    const bench = { ...none, ...half(0.01), leakage };
    expect(readingOf(bench, one).flow_m3_s / CFM).toBeCloseTo(100 - leak, 5);
    const own = (0.01 / 2) * (100 - leak);
    expect(u(bench, one)).toBeCloseTo(Math.hypot(own, 0.005 * leak, (2.8 - leak) / Math.sqrt(3)), 5);
    // Its digit is that with which it was typed, at the pressure of the reading, and not that of the reading.
    const coarse = { ...bench, resolution: cfm(0.6), leakage: { ...leakage, resolution: { intake: cfm(0.2) } } };
    const digits = [0.6, 0.2 * leak].map((digit) => digit / Math.sqrt(12));
    expect(u(coarse, one)).toBeCloseTo(Math.hypot(own, ...digits, 0.005 * leak, (2.8 - leak) / Math.sqrt(3)), 5);
    // One leakage is taken off every reading: it does not get less by repeating.
    expect(u({ ...none, ...sure, leakage }, { rows: flow(100, 100) })).toBeCloseTo((2.8 - leak) / Math.sqrt(3), 5);
    // At 10 inH2O, with a leakage read at 5: √2 as an orifice, 2 as seepage, all of it as much more at 28.
    const low = {
      ...none,
      ...half(0),
      testPressure: inchesOfWater(10),
      leakage: { ...leakage, testPressure: inchesOfWater(5) },
    };
    const { air } = modelOf({}).reference;
    const error = conversionError("intake", inchesOfWater(10), inchesOfWater(28), air) / Math.sqrt(3);
    const seep = ((2 - Math.SQRT2) * Math.sqrt(2.8)) / Math.sqrt(3);
    expect(u(low, one)).toBeCloseTo(Math.hypot(seep, (100 - Math.SQRT2) * Math.sqrt(2.8) * error), 5);
    // The other side's is none of this one.
    const other = { ...none, ...half(0.01), leakage: { exhaust: cfm(1), testPressure: inchesOfWater(10) } };
    expect(u(other, one)).toBeCloseTo(0.5, 5);
  });
  test("conversion: its error as a half-width, the same for all readings at that pressure", () => {
    const bench = { ...none, ...sure, testPressure: inchesOfWater(10) };
    const { air } = modelOf({}).reference;
    const error = conversionError("intake", inchesOfWater(10), inchesOfWater(28), air);
    expect(error).toBeGreaterThan(1e-3);
    const converted = 100 * Math.sqrt(2.8);
    for (const runs of [[one], [one, again], [one, five]])
      expect(u(bench, ...runs)).toBeCloseTo((converted * error) / Math.sqrt(3), 5);
    // A digit of the scale grows with the flow.
    const coarse = { ...bench, resolution: cfm(0.6) };
    expect(u(coarse, one)).toBeCloseTo(
      Math.hypot((converted * error) / Math.sqrt(3), (0.6 * Math.sqrt(2.8)) / Math.sqrt(12)),
      5,
    );
  });
  test("with nothing stated: the repeats themselves, of one mount, or across mounts where those are too few", () => {
    // Twice Student's factor for 95.45 %: 13.968 with one degree of freedom, 4.527 with two (JCGM 100:2008, table G.2).
    const three = readingOf(none, { rows: flow(99, 100, 101) });
    expect(three.uncertainty_m3_s! / CFM).toBeCloseTo((4.527 * 1) / Math.sqrt(3), 2);
    // Two mounts over three lifts: what remains of their distances has two.
    const mounts = [[99, 202, 300] as const, [101, 198, 300] as const].map(
      (flows, k): RunSketch => ({
        mount: k + 1,
        rows: flows.map((one, at): Row => [0.3 + at / 100, one]),
      }),
    );
    expect(readingOf(none, ...mounts).uncertainty_m3_s! / CFM).toBeCloseTo((4.527 * Math.SQRT2) / Math.SQRT2, 2);
    const two = [flow(99), flow(101)].map((rows, k): RunSketch => ({ mount: k + 1, rows }));
    expect(readingOf(none, ...two)).not.toHaveProperty("uncertainty_m3_s");
    expect(readingOf(none, one)).not.toHaveProperty("uncertainty_m3_s");
    // Ports are no repeats of each other, nor are lifts.
    expect(readingOf(none, one, five)).not.toHaveProperty("uncertainty_m3_s");
    expect(
      readingOf(none, {
        rows: [
          [0.3, 100],
          [0.31, 101],
          [0.32, 102],
        ],
      }),
    ).not.toHaveProperty("uncertainty_m3_s");
  });
});

describe("errors that two stages share count by as much as the two differ", () => {
  const changeOf = (bench: Sketch["bench"], first: object = {}, second: object = {}) => {
    const stages = [first, second].map((more, k) => ({ name: `S${k}`, intake: {}, flow: flow(100 + 20 * k), ...more }));
    const [pair] = computeFigures(modelOf({ bench, stages })).comparisons;
    return pair!.changes[0]!.uncertainty_m3_s! / CFM / 2;
  };
  test("re-mounting is none of them, whatever the dates", () => {
    const bench = { ...none, ...half(0), remount: ratio(0.01) };
    const day = (date: string) => ({ date });
    for (const [first, second] of [
      [{}, {}],
      [day("2026-03-18"), day("2026-03-18")],
      [day("2026-03-18"), day("2026-03-19")],
    ])
      expect(changeOf(bench, first, second)).toBeCloseTo(Math.hypot(0.5, 0.6), 5);
  });
  test("accuracy is one bench's, by its name, else by the file in which it stands", () => {
    const bench = { ...none, ...half(0), accuracy: ratio(0.01) };
    const on = (name?: string, file?: string) => ({ bench: { ...(name && { name }), ...(file && { file }) } });
    const [shared, apart] = [0.1, Math.hypot(0.5, 0.6)];
    expect(changeOf(bench)).toBeCloseTo(shared, 5);
    expect(changeOf(bench, on("One"), on("One"))).toBeCloseTo(shared, 5);
    expect(changeOf(bench, on("One"), on("Two"))).toBeCloseTo(apart, 5);
    expect(changeOf(bench, on(undefined, "a"), on(undefined, "a"))).toBeCloseTo(shared, 5);
    expect(changeOf(bench, on(undefined, "a"), on(undefined, "b"))).toBeCloseTo(apart, 5);
  });
  test("and one range's", () => {
    const model = modelOf({
      bench: { ...none, ...half(0), accuracy: ratio(0.01) },
      stages: [100, 120].map((one, k) => ({ name: `S${k}`, intake: {}, flow: flow(one) })),
    });
    const ranged = (...ranges: readonly string[]) => ({
      ...model,
      stages: model.stages.map((stage, k) => {
        const [set] = stage.sets;
        const [run] = set!.runs;
        const intake = run!.readings.intake.map((reading) => ({ ...reading, range: ranges[k]! }));
        return { ...stage, sets: [{ ...set!, runs: [{ ...run!, readings: { ...run!.readings, intake } }] }] };
      }),
    });
    const of = (...ranges: readonly string[]) =>
      computeFigures(ranged(...ranges)).comparisons[0]!.changes[0]!.uncertainty_m3_s! / CFM / 2;
    expect(of("2", "2")).toBeCloseTo(0.1, 5);
    expect(of("2", "3")).toBeCloseTo(Math.hypot(0.5, 0.6), 5);
  });
  test("a conversion is one error of runs at one test pressure", () => {
    const { air } = modelOf({}).reference;
    const error = conversionError("intake", inchesOfWater(10), inchesOfWater(28), air) / Math.sqrt(3);
    const ten = { ...none, ...half(0), testPressure: inchesOfWater(10) };
    expect(changeOf(ten)).toBeCloseTo(20 * Math.sqrt(2.8) * error, 5);
  });
  test("leakage is one error of a bench and side", () => {
    const leakage = { intake: cfm(1), resolution: { intake: cfm(0.5) }, testPressure: inchesOfWater(28) };
    expect(changeOf({ ...none, ...half(0), leakage })).toBeCloseTo(0, 5);
  });
});

describe("what a mean reading is", () => {
  const readings = (...runs: readonly RunSketch[]) =>
    computeFigures(modelOf({ bench: half(0.01), stages: [{ intake: {}, runs }] })).stages[0]!.intake!;
  test("unsteady where any of its readings was, doubtful where none is sound", () => {
    const noisy = readings({
      rows: [
        [0.3, 100],
        [0.3, "100!"],
      ],
    }).readings[0]!;
    expect(noisy).toMatchObject({ noisy: true, repeats: 2, mounts: 1 });
    expect(readings({ rows: [[0.3, "100?"]] }).readings[0]).toMatchObject({ doubtful: true, repeats: 1 });
    expect(
      readings({
        rows: [
          [0.3, "90?"],
          [0.3, 100],
        ],
      }).readings[0],
    ).not.toHaveProperty("doubtful");
  });
  test("of the ports that were read soundly; of all where none was", () => {
    const sound = readings({ rows: [[0.3, 100]] }, { cylinder: 2, rows: [[0.3, "90?"]] });
    expect(sound.readings[0]!.flow_m3_s / CFM).toBeCloseTo(100, 9);
    expect(sound.cylinders.map(({ cylinder }) => cylinder)).toEqual([1]);
    const doubtful = readings({ rows: [[0.3, "100?"]] }, { cylinder: 2, rows: [[0.3, "90?"]] });
    expect(doubtful.readings[0]!.flow_m3_s / CFM).toBeCloseTo(95, 9);
  });
  test("converted from the pressure that lies furthest from the reference's, either way and in any order", () => {
    const from = (...pressures: readonly number[]) =>
      readings(...pressures.map((pressure, k) => ({ mount: k + 1, rows: [[0.3, 100, undefined, pressure]] as Row[] })))
        .readings[0]!.converted_from_Pa! / INCH_OF_WATER;
    for (const [one, other, furthest] of [
      [25, 10, 10],
      [40, 25, 40],
      [40, 10, 10],
      [30, 25, 25],
    ] as const) {
      expect(from(one, other)).toBeCloseTo(furthest, 9);
      expect(from(other, one)).toBeCloseTo(furthest, 9);
    }
  });
  test("by cylinder in the order of their numbers, not of their digits", () => {
    const { port_to_port } = readings(
      ...[10, 2, 1].map((cylinder) => ({ cylinder, rows: [[0.3, 100 + cylinder]] as Row[] })),
      { cylinder: 2, hand: "end", rows: [[0.3, 90]] },
    );
    expect(port_to_port!.cylinders.map(({ cylinder, hand }) => [cylinder, hand])).toEqual([
      [1, undefined],
      [2, undefined],
      [2, "end"],
      [10, undefined],
    ]);
    // A port of another hand has no part in the means.
    const means = port_to_port!.cylinders.map(({ mean_m3_s: mean }) => mean && Math.round(mean / CFM));
    expect(means).toEqual([101, 102, undefined, 110]);
  });
});
