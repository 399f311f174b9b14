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
const none = { liftSetting: inches(0), resolution: cfm(0) };
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
  test("re-mounting: half of what is stated, less by the root of mounts and of ports", () => {
    const bench = { ...none, ...sure, remount: ratio(0.014) };
    expect(u(bench, one)).toBeCloseTo(0.7, 5);
    expect(u(bench, { rows: flow(100, 100) })).toBeCloseTo(0.7, 5);
    expect(u(bench, one, again)).toBeCloseTo(0.7 / Math.SQRT2, 5);
    expect(u(bench, one, five)).toBeCloseTo(0.7 / Math.SQRT2, 5);
  });
  test("lift setting: half of it by the slope there, less by the root of ports", () => {
    const bench = { ...none, ...sure, liftSetting: inches(0.003) };
    // The curve rises straight from 0 to 100 cfm at 0.3 in.
    expect(u(bench, one)).toBeCloseTo(((100 / 0.3) * 0.003) / 2, 5);
    expect(u(bench, one, five)).toBeCloseTo(((100 / 0.3) * 0.003) / 2 / Math.SQRT2, 5);
  });
  test("leakage: its digit, its own repeatability, and half the way between two laws of seepage", () => {
    const leakage = { intake: cfm(1), testPressure: inchesOfWater(10) };
    // Read at 10 inH2O and taken off at 28 as an orifice: 1 · √2.8; as seepage it would be 2.8.
    const leak = Math.sqrt(2.8);
    const bench = { ...none, ...half(0.01), leakage };
    expect(readingOf(bench, one).flow_m3_s / CFM).toBeCloseTo(100 - leak, 5);
    const own = (0.01 / 2) * (100 - leak);
    expect(u(bench, one)).toBeCloseTo(Math.hypot(own, 0.005 * leak, (2.8 - leak) / Math.sqrt(3)), 5);
    const coarse = { ...bench, resolution: cfm(0.6) };
    const digit = 0.6 / Math.sqrt(12);
    expect(u(coarse, one)).toBeCloseTo(Math.hypot(own, digit, digit, 0.005 * leak, (2.8 - leak) / Math.sqrt(3)), 5);
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
    const two = readingOf(none, { rows: flow(99) }, { mount: 2, rows: flow(101) });
    expect(two.uncertainty_m3_s! / CFM).toBeCloseTo((13.968 * Math.SQRT2) / Math.SQRT2, 2);
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

describe("errors that two stages share do not count in their difference", () => {
  const changeOf = (bench: Sketch["bench"], first: object, second: object) => {
    const stages = [first, second].map((more, k) => ({ name: `S${k}`, intake: {}, flow: flow(100 + 20 * k), ...more }));
    const [pair] = computeFigures(modelOf({ bench, stages })).comparisons;
    return pair!.changes[0]!.uncertainty_m3_s! / CFM / 2;
  };
  const day = (date: string) => ({ date });
  test("re-mounting on one day under one mount's number is one mount, on two days it is two", () => {
    const bench = { ...none, ...half(0), remount: ratio(0.01) };
    expect(changeOf(bench, day("2026-03-18"), day("2026-03-18"))).toBeCloseTo(0, 5);
    expect(changeOf(bench, day("2026-03-18"), day("2026-03-19"))).toBeCloseTo(Math.hypot(0.5, 0.6), 5);
    expect(changeOf(bench, {}, {})).toBeCloseTo(Math.hypot(0.5, 0.6), 5);
  });
  test("accuracy is one bench's, by its name", () => {
    const bench = { ...none, ...half(0), accuracy: ratio(0.01) };
    const named = (name?: string) => ({ bench: name === undefined ? {} : { name } });
    expect(changeOf(bench, named(), named())).toBeCloseTo(0, 5);
    expect(changeOf(bench, named("One"), named("One"))).toBeCloseTo(0, 5);
    expect(changeOf(bench, named("One"), named("Two"))).toBeCloseTo(Math.hypot(0.5, 0.6), 5);
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
    expect(noisy).toMatchObject({ noisy: true, repeats: 2 });
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
    const { cylinders } = readings(
      ...[10, 2, 1].map((cylinder) => ({ cylinder, rows: [[0.3, 100 + cylinder]] as Row[] })),
      { cylinder: 2, hand: "end", rows: [[0.3, 90]] },
    );
    expect(cylinders.map(({ cylinder, hand }) => [cylinder, hand])).toEqual([
      [1, undefined],
      [2, undefined],
      [2, "end"],
      [10, undefined],
    ]);
    // Over one lift there is no mean of a range: each has that of its readings.
    expect(cylinders.map(({ mean_flow_m3_s }) => Math.round(mean_flow_m3_s / CFM))).toEqual([101, 102, 90, 110]);
  });
});
