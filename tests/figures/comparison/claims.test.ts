import { describe, expect, test } from "vitest";
import { bandHasChanged, liftClaims, sharedLevel } from "../../../src/figures/comparison/lift-claims.ts";
import { computeFigures } from "../../../src/figures/compute-figures.ts";
import type { Comparison } from "../../../src/figures/figures.ts";
import { studentT } from "../../../src/figures/math/student-t.ts";
import type { Term } from "../../../src/figures/math/uncertainty.ts";
import type { Bench, Model } from "../../../src/model/model.ts";
import { metres, ratio } from "../../../src/units/quantity.ts";
import {
  CFM,
  INCH,
  inches,
  modelOf,
  portOf,
  type Row,
  rowsOf,
  type Sketch,
  type StageSketch,
} from "../model-fixture.ts";

/** Changes at lifts of 1, 2, … mm, each with a standard uncertainty of 1 and a flow before of 100. */
const changesOf = (...changes: readonly number[]) =>
  changes.map((change, k) => {
    const point = { lift: metres((k + 1) / 1000), flow: 100 as never, ranges: [""], interpolated: false };
    const term: Term = { part: "repeats", error: `${k}`, estimate: `${k}`, u: 1, dof: Number.POSITIVE_INFINITY };
    return {
      before: { ...point, terms: [] },
      after: { ...point, terms: [term] },
      change,
      combined: { u: 1, dof: Number.POSITIVE_INFINITY, expanded: 2, parts: {} },
      unknownAccuracy: false,
    };
  });
const beyond = (change: number, uncertainty: number) => Math.abs(change) > uncertainty;

describe("many lifts, one claim", () => {
  const claims = (hasOverallChange: boolean, ...changes: readonly number[]) =>
    liftClaims(changesOf(...changes), hasOverallChange, beyond);
  test("alone a lift has to be beyond the ± that all lifts share", () => {
    // Ten lifts: t at 1 − 0.0455 ÷ 10 is 2.837, the normal distribution's.
    expect(studentT(Number.POSITIVE_INFINITY, sharedLevel(10))).toBeCloseTo(2.837, 3);
    const quiet = Array(9).fill(0);
    expect(claims(true, 2.83, ...quiet)[0]).toBe(0);
    expect(claims(true, 2.84, ...quiet)[0]).toBe(1);
    // It opens the gate by itself.
    expect(claims(false, -2.84, ...quiet)[0]).toBe(-1);
    expect(claims(false, 2.1, 2.1, ...Array(8).fill(0))).toEqual(Array(10).fill(0));
  });
  test("with a neighbour that changed the same way it has to be beyond its own", () => {
    expect(claims(true, 2.1, 2.1, 0, 2.1)).toEqual([1, 1, 0, 0]);
    expect(claims(true, 2.1, -2.1, -2.1, 1.9)).toEqual([0, -1, -1, 0]);
    expect(claims(true, 0, 2.5, 4, 2.1, 0)).toEqual([0, 1, 1, 1, 0]);
  });
  test("a band opens the gate by its sum, at the level that the bands share", () => {
    // D = 20 mm: low below 2.4 mm, mid to 4.4 mm, high above. Two lifts of 1 each: √2 · t(1 − 0.0455 ÷ 3) = 3.4335.
    const opens = (diameter: number | undefined, ...changes: readonly number[]) =>
      bandHasChanged(changesOf(...changes), diameter as never, beyond);
    const most = Math.SQRT2 * studentT(Number.POSITIVE_INFINITY, sharedLevel(3));
    expect(opens(0.02, most / 2 - 0.01, most / 2, 0, 0, 0)).toBe(false);
    expect(opens(0.02, most / 2 + 0.01, most / 2, 0, 0, 0)).toBe(true);
    expect(opens(0.02, 0, 0, most, 0.01, 0)).toBe(true);
    expect(opens(undefined, 100, 100, 100, 100, 100)).toBe(false);
    // All in one band: one claim.
    expect(opens(1, 2, 0.01 + 2 * Math.sqrt(3) - 2, 0)).toBe(true);
  });
});

const sure = { repeatability: { kind: "expanded", value: ratio(0.01) }, remount: ratio(0.004) } as const;
const rows = (...flows: number[]): Row[] => flows.map((flow, k) => [(k + 1) / 10, flow]);
const compare = (stages: readonly StageSketch[], sketch: Sketch = {}): readonly Comparison[] =>
  computeFigures(modelOf({ bench: sure, stages: stages.map((one) => ({ intake: {}, ...one })), ...sketch }))
    .comparisons;
const pairOf = (from: readonly Row[], to: readonly Row[], sketch?: Sketch) =>
  compare(
    [
      { name: "A", flow: from },
      { name: "B", flow: to },
    ],
    sketch,
  )[0]!;

describe("what a comparison claims", () => {
  const before = rows(40, 80, 110, 130, 140);
  const verdicts = (pair: Comparison) =>
    pair.changes.filter(({ interpolated }) => !interpolated).map(({ verdict }) => verdict);
  test("nothing at a lift that stands alone beyond its ±, though the average has changed", () => {
    const pair = pairOf(before, rows(41.2, 82.4, 113.3, 134, 144.2));
    expect(pair.mean_change_verdict).toBe("clear gain");
    expect(pair).not.toHaveProperty("bound_ratio");
    const lone = pairOf(before, rows(40, 80, 112.1, 130, 140));
    const change = lone.changes.find(({ lift_m }) => Math.abs(lift_m / INCH - 0.3) < 1e-6)!;
    expect(change.change_m3_s).toBeGreaterThan(change.uncertainty_m3_s!);
    expect(change.change_m3_s).toBeLessThan(change.joint_uncertainty_m3_s!);
    expect(verdicts(lone)).toEqual(Array(5).fill("within repeatability"));
  });
  test("the size of a null result: the largest change of the average that is left open", () => {
    const pair = pairOf(before, rows(40.2, 80.4, 110.5, 130.6, 140.7));
    expect(pair.mean_change_verdict).toBe("within repeatability");
    expect(pair.bound_ratio).toBeCloseTo(pair.mean_change_ratio! + pair.mean_change_uncertainty_ratio!, 12);
  });
  test("a lift between readings only where both measured lifts around it are claimed", () => {
    const report = {
      lifts: [
        { kind: "lift", lift: inches(0.25) },
        { kind: "lift", lift: inches(0.45) },
      ],
    } as const;
    const pair = pairOf(before, rows(40, 88, 121, 130, 140), { report });
    const at = (lift: number) => pair.changes.find(({ lift_m }) => Math.abs(lift_m / INCH - lift) < 1e-6)!;
    expect(at(0.25)).toMatchObject({ interpolated: true, verdict: "clear gain" });
    expect(at(0.25)).not.toHaveProperty("joint_uncertainty_m3_s");
    expect(at(0.45)).toMatchObject({ interpolated: true, verdict: "within repeatability" });
    const low = pairOf(rows(40, 80, 110), rows(40, 88, 121), {
      report: { lifts: [{ kind: "lift", lift: inches(0.15) }] },
    });
    expect(low.changes.find(({ interpolated }) => interpolated)!.verdict).toBe("within repeatability");
  });
  test("peak against peak, each at its own lift, with the larger ±", () => {
    const pair = pairOf(rows(40, 80, 120, 115), rows(40, 80, 121, 132));
    expect(pair.peak_change).toMatchObject({
      from_lift_m: expect.closeTo(0.3 * INCH, 9),
      to_lift_m: expect.closeTo(0.4 * INCH, 9),
      change_m3_s: expect.closeTo(12 * CFM, 9),
      change_ratio: expect.closeTo(0.1, 9),
      verdict: "clear gain",
    });
    const atLifts = pair.changes.filter(({ lift_m }) => lift_m > 0.25 * INCH).map((one) => one.uncertainty_m3_s!);
    expect(pair.peak_change!.uncertainty_m3_s).toBeCloseTo(Math.max(...atLifts), 12);
  });
  test("no clear peak where more lifts alone found a higher reading of the same curve", () => {
    const coarse = rows(40, 80, 120, 140, 126);
    const fine: Row[] = [...coarse.slice(0, 4), [0.45, 146], [0.5, 126]];
    const pair = pairOf(coarse, fine);
    expect(pair.peak_change).toMatchObject({
      change_m3_s: expect.closeTo(6 * CFM, 9),
      verdict: "within repeatability",
    });
    const higher = fine.map(([lift, flow]): Row => [lift, (flow as number) * 1.06]);
    expect(pairOf(coarse, higher).peak_change).toMatchObject({ verdict: "clear gain" });
  });
  test("no ± of the average between two benches of unknown accuracy, other conditions or not", () => {
    const on = (bench: Partial<Bench>): StageSketch => ({ name: bench.name!, bench, flow: before });
    const [pair] = compare([on({ ...sure, name: "A" }), on({ ...sure, name: "B" })]);
    expect(pair).not.toHaveProperty("mean_change_uncertainty_ratio");
  });
  test("no peak where one was not read as far as the other's", () => {
    expect(pairOf(rows(40, 80, 120), rows(40, 80, 120, 140))).not.toHaveProperty("peak_change");
    expect(pairOf(rows(40, 80, 120, 140), rows(40, 80, 120))).not.toHaveProperty("peak_change");
  });
});

describe("why verdicts are withheld, the first that holds", () => {
  const pair = (from: Partial<Bench>, to: Partial<Bench>, sketch: Sketch = {}) =>
    compare(
      [
        { name: "A", bench: from, flow: rows(40, 80, 110) },
        { name: "B", bench: to, flow: rows(48, 96, 132) },
      ],
      sketch,
    )[0]!;
  test("conditions before a check plate before two benches: the numbers stay, the verdicts go", () => {
    const off = { checkPlate: { nominal: 1, after: 1.03 } as never };
    expect(pair({ intakeEntry: "none" }, { ...off, name: "Two" }).verdict_withheld).toBe("conditions");
    expect(pair(off, { name: "Two" }).verdict_withheld).toBe("check plate");
    expect(pair({}, { name: "Two" }).verdict_withheld).toBe("two benches");
    expect(pair({ file: "a.yaml" }, { file: "b.yaml" }).verdict_withheld).toBe("two benches");
    const unlike = pair({ intakeEntry: "none" }, {});
    expect(unlike.mean_change_ratio).toBeCloseTo(0.2, 2);
    expect(unlike.mean_change_uncertainty_ratio).toBeGreaterThan(0);
    expect(unlike).not.toHaveProperty("mean_change_verdict");
    expect(unlike).not.toHaveProperty("bound_ratio");
    expect(unlike.peak_change).not.toHaveProperty("verdict");
    for (const change of unlike.changes) {
      expect(change.uncertainty_m3_s).toBeGreaterThan(0);
      expect(change).not.toHaveProperty("verdict");
    }
  });
  test("flowed once: nothing read twice in a mount or in two, and no repeatability stated", () => {
    const once = (...runs: NonNullable<StageSketch["runs"]>) =>
      compare(
        [
          { name: "A", flow: rows(40, 80, 110) },
          { name: "B", runs },
        ],
        { bench: {} },
      )[0]!;
    const pair = once({ rows: rows(48, 96, 132) });
    expect(pair.verdict_withheld).toBe("flowed once");
    expect(pair).not.toHaveProperty("mean_change_verdict");
    // Read twice, in one mount or in two, but too seldom to know anything: that is another thing.
    for (const mount of [1, 2]) {
      const twice = once({ rows: rows(48) }, { mount, rows: rows(48.2) });
      expect(twice).not.toHaveProperty("verdict_withheld");
      expect(twice.changes[0]!.verdict).toBe("too few repeats");
    }
    // Other cylinders are no second reading.
    expect(once({ rows: rows(48) }, { cylinder: 2, rows: rows(48.2) }).verdict_withheld).toBe("flowed once");
  });
});

describe("two ranges of a bench", () => {
  const flows = [40, 80, 110, 130];
  const model = (bench: Partial<Bench>, ranges: readonly (readonly string[])[], gain = 1.2): Model => {
    const plain = modelOf({
      bench: { ...sure, name: "Bench", ...bench },
      report: { lifts: [] },
      stages: ranges.map((_, k) => ({
        name: `S${k}`,
        intake: {},
        flow: rows(...flows.map((one) => one * (k ? gain : 1))),
      })),
    });
    const stages = plain.stages.map((stage, k) => {
      const [set] = stage.sets;
      const [run] = set!.runs;
      const intake = run!.readings.intake.map((reading, at) => ({ ...reading, range: ranges[k]![at]! }));
      return { ...stage, sets: [{ ...set!, runs: [{ ...run!, readings: { ...run!.readings, intake } }] }] };
    });
    return { ...plain, stages };
  };
  const apart = [
    ["1", "1", "2", "2"],
    ["1", "2", "2", "2"],
  ];
  test("withhold the verdict where they meet, and of the mean, unless the accuracy is stated", () => {
    const [pair] = computeFigures(model({}, apart)).comparisons;
    expect(pair!.verdict_withheld).toBe("two ranges");
    expect(pair).not.toHaveProperty("mean_change_verdict");
    expect(pair).not.toHaveProperty("mean_change_uncertainty_ratio");
    expect(pair!.changes.map(({ verdict }) => verdict)).toEqual(["clear gain", undefined, "clear gain", "clear gain"]);
    expect(pair!.changes[1]).not.toHaveProperty("uncertainty_m3_s");
    expect(pair!.peak_change).toMatchObject({ verdict: "clear gain" });
    const [stated] = computeFigures(model({ accuracy: ratio(0.01) }, apart)).comparisons;
    expect(stated).not.toHaveProperty("verdict_withheld");
    expect(stated!.mean_change_verdict).toBe("clear gain");
    expect(stated!.changes[1]!.uncertainty_m3_s).toBeGreaterThan(stated!.changes[0]!.uncertainty_m3_s!);
  });
  test("one range at each lift, alike in both, is no obstacle", () => {
    const [pair] = computeFigures(model({}, [apart[0]!, apart[0]!])).comparisons;
    expect(pair).not.toHaveProperty("verdict_withheld");
    expect(pair!.mean_change_verdict).toBe("clear gain");
  });
  test("tell nothing of a curve's shape across them", () => {
    const shape = (bench: Partial<Bench>, ...ranges: readonly string[]) => {
      const falling = { ...model(bench, [ranges]) };
      const [stage] = falling.stages;
      const [set] = stage!.sets;
      const [run] = set!.runs;
      const readings = run!.readings.intake.map((one, k) => (k === 3 ? { ...one, flow: (108 * CFM) as never } : one));
      const stages = [
        { ...stage!, sets: [{ ...set!, runs: [{ ...run!, readings: { ...run!.readings, intake: readings } }] }] },
      ];
      return computeFigures({ ...falling, stages }).stages[0]!.intake!;
    };
    expect(shape({}, "1", "1", "2", "2").after_peak).toBeDefined();
    for (const key of ["after_peak", "holds"]) expect(shape({}, "1", "1", "1", "2")).not.toHaveProperty(key);
    expect(shape({ accuracy: ratio(0.01) }, "1", "1", "1", "2").after_peak).toBeDefined();
  });
});

describe("beside another head", () => {
  const engine = {
    cylinders: 4,
    bore: inches(4),
    stroke: inches(3.5),
    rodLength: inches(6),
    rpm: { from: 2000, to: 3000 } as never,
    cams: { intake: { netLift: inches(0.35), duration: 4 as never, at: inches(0.05) } },
  };
  const own: Row[] = rowsOf("0.1 40, 0.2 80, 0.3 110, 0.4 130, 0.5 140");
  const other: Row[] = rowsOf("0.1 45, 0.2 86, 0.3 112, 0.4 122, 0.5 128");
  const found = compare([{ name: "A", intake: portOf({}), flow: own }], {
    engine,
    report: { lifts: [{ kind: "lift", lift: inches(0.2) }] },
    compared: [{ label: "Other", stage: { name: "X", intake: portOf({}), flow: other } }],
  });
  test("low, mid, high and the cam's lift are compared whatever the report asks for", () => {
    const [pair] = found;
    expect(pair!.compared!.map(({ at }) => at)).toEqual(["low", "mid", "high", "cam"]);
    for (const { lift_m } of pair!.compared!)
      expect(pair!.changes.some((change) => change.lift_m === lift_m && change.verdict !== undefined)).toBe(true);
    expect(pair!.peak_change!.verdict).toBe("clearly higher");
    expect(pair!.changes[0]!.verdict).toBe("clearly lower");
    expect(pair!.crossovers_m).toHaveLength(1);
  });
  test("it has the same engine figures on this engine", () => {
    const [alone] = computeFigures(
      modelOf({ bench: sure, engine, stages: [{ name: "X", intake: portOf({}), flow: other }] }),
    ).stages;
    expect(found[0]!.engine).toEqual(alone!.engine);
    expect(found[0]!.engine!.z_limit_rpm).toBeGreaterThan(0);
  });
  test("a job's own stages carry neither", () => {
    const [pair] = compare(
      [
        { name: "A", flow: own },
        { name: "B", flow: other },
      ],
      { engine },
    );
    for (const key of ["engine", "compared"]) expect(pair).not.toHaveProperty(key);
  });
});
