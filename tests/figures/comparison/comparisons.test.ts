import { describe, expect, test } from "vitest";
import { compareSweeps } from "../../../src/figures/comparison/comparison.ts";
import { computeFigures } from "../../../src/figures/compute-figures.ts";
import type { Comparison } from "../../../src/figures/figures.ts";
import { verdictOn } from "../../../src/figures/sweep/verdict.ts";
import { isClear } from "../../../src/model/verdict.ts";
import { ratio } from "../../../src/units/quantity.ts";
import { CFM, INCH, inches, modelOf, type Row, rowsOf, type Sketch, type StageSketch } from "../model-fixture.ts";

const sure = { repeatability: { kind: "expanded", value: ratio(0.01) }, remount: ratio(0.005) } as const;
const rows = (...flows: number[]): Row[] => flows.map((flow, k) => [(k + 1) / 10, flow]);
const compare = (stages: readonly StageSketch[], sketch: Sketch = {}): readonly Comparison[] =>
  computeFigures(modelOf({ bench: sure, stages, ...sketch })).comparisons;
const names = (pairs: readonly Comparison[]) =>
  pairs.map(({ from, to }) => `${from.label ?? from.stage} → ${to.label ?? to.stage}`);

describe("pairs", () => {
  const stages = ["A", "B", "C"].map((name, k) => ({ name, flow: rows(40 + k, 80 + 2 * k, 110 + 4 * k) }));
  test("each with the one before, then last with first when there are more than two", () => {
    expect(names(compare(stages.slice(0, 1)))).toEqual([]);
    expect(names(compare(stages.slice(0, 2)))).toEqual(["A → B"]);
    expect(names(compare(stages))).toEqual(["A → B", "B → C", "A → C"]);
  });
  test("the last with each other head, called higher or lower", () => {
    const other = { label: "Standard valves", stage: { name: "Finished", flow: rows(30, 60, 90) } };
    const [, pair] = compare(stages.slice(0, 2), { compared: [other] });
    expect(pair!.from).toEqual({ stage: "Finished", label: "Standard valves" });
    expect(pair!.changes.map((change) => change.verdict)).toEqual([
      "clearly higher",
      "clearly higher",
      "clearly higher",
    ]);
  });
  test("a stage measured again enters no pair, and its distance is the floor", () => {
    const again = { name: "A again", repeats: "A", flow: rows(41.6, 83.2, 114.4) };
    const pairs = compare([stages[0]!, again, { name: "B", flow: rows(41.5, 83, 114) }]);
    expect(names(pairs)).toEqual(["A → B"]);
    expect(pairs[0]!.floor_ratio).toBeCloseTo(0.04, 9);
    expect(pairs[0]!.mean_change_verdict).toBe("within repeatability");
    expect(compare([stages[0]!, { name: "B", flow: rows(41.5, 83, 114) }])[0]!.mean_change_verdict).toBe("clear gain");
    expect(compare([stages[0]!, { name: "B", flow: rows(41.5, 83, 114) }])[0]!.floor_ratio).toBeUndefined();
  });
  test("the floor is the distance of the ports that were measured again", () => {
    const runs = [{ rows: rows(40, 80) }, { cylinder: 5, rows: rows(60, 90) }];
    const pairs = compare([
      { name: "A", runs },
      { name: "Again", repeats: "A", flow: rows(40.4, 80.8) },
      { name: "B", runs },
    ]);
    expect(pairs[0]!.floor_ratio).toBeCloseTo(0.01, 9);
  });
  test("stages that were not flowed on a side are passed over", () => {
    const pairs = compare([stages[0]!, { name: "Cut", intake: {} }, stages[2]!]);
    expect(names(pairs)).toEqual(["A → C"]);
  });
});

describe("changes", () => {
  test("at the lifts measured in both, and at the report's lifts marked interpolated", () => {
    const stages = [
      { name: "A", flow: rows(40, 80, 110) },
      {
        name: "B",
        flow: rowsOf("0.1 44, 0.2 86, 0.25 104, 0.3 120") as Row[],
      },
    ];
    const report = { lifts: [{ kind: "lift", lift: inches(0.25) }, { kind: "peak" }] } as const;
    const [pair] = compare(stages, { report });
    expect(
      pair!.changes.map((change) => [Math.round((change.lift_m / INCH) * 1000) / 1000, change.interpolated]),
    ).toEqual([
      [0.1, undefined],
      [0.2, undefined],
      [0.25, true],
      [0.3, undefined],
    ]);
    expect(pair!.changes[1]!.change_m3_s / CFM).toBeCloseTo(6, 9);
    expect(pair!.changes[1]!.change_ratio).toBeCloseTo(0.075, 9);
  });
  test("the mean runs over shared lifts, no further than the cam", () => {
    const stages = [{ flow: rows(40, 80, 110, 130) }, { flow: rows(44, 88, 121) }];
    const [free] = compare(stages);
    expect([free!.from_lift_m! / INCH, free!.to_lift_m! / INCH]).toEqual([
      expect.closeTo(0.1, 9),
      expect.closeTo(0.3, 9),
    ]);
    const [cam] = compare(stages, { engine: { cams: { intake: { netLift: inches(0.22) } } } });
    expect(cam!.to_lift_m! / INCH).toBeCloseTo(0.22, 9);
    expect(compare([{ flow: rows(40, 80, 110) }, { flow: rows(44, 88, 121) }])[0]!.mean_change_ratio).toBeCloseTo(
      0.1,
      9,
    );
  });
  test("cylinder 1 is compared with cylinder 1, a hand with the same hand", () => {
    const one = {
      name: "A",
      runs: [
        { cylinder: 1, rows: rows(40, 80) },
        { cylinder: 5, hand: "end", rows: rows(30, 60) },
      ],
    };
    const two = {
      name: "B",
      runs: [
        { cylinder: 1, rows: rows(44, 88) },
        { cylinder: 5, rows: rows(50, 90) },
      ],
    };
    const [pair] = compare([one, two]);
    expect(pair!.changes.map((change) => change.change_m3_s / CFM)).toEqual([
      expect.closeTo(4, 9),
      expect.closeTo(8, 9),
    ]);
    const [none] = compare([one, { name: "B", runs: [{ cylinder: 7, rows: rows(44, 88) }] }]);
    expect(none).toMatchObject({ changes: [], like_for_like: false, differences: ["no port was flowed in both"] });
  });
  test("a change within its ± is no gain; the verdict follows the sign", () => {
    const verdicts = (by: number) =>
      compare([
        { name: "A", flow: rows(100, 150) },
        { name: "B", flow: rows(100 * by, 150 * by) },
      ])[0]!.mean_change_verdict;
    expect(verdicts(1.05)).toBe("clear gain");
    expect(verdicts(0.95)).toBe("clear loss");
    expect(verdicts(1.005)).toBe("within repeatability");
  });
  test("one pair of repeats alone is too few", () => {
    const pairs = compare(
      [
        {
          name: "A",
          flow: [
            [0.3, 100],
            [0.3, 101],
          ],
        },
        { name: "B", flow: [[0.3, 150]] },
      ],
      { bench: {} },
    );
    expect(pairs[0]!.changes[0]!.verdict).toBe("too few repeats");
  });
});

describe("what carries no verdict", () => {
  const [first, second] = [rows(40, 80, 110), rows(44, 88, 121)];
  const pair = (from: StageSketch, to: StageSketch) =>
    compare([
      { name: "A", flow: first, ...from },
      { name: "B", flow: second, ...to },
    ])[0]!;
  const said = (...given: Parameters<typeof pair>) => {
    const { verdict_withheld, mean_change_verdict } = pair(...given);
    return verdict_withheld ?? mean_change_verdict;
  };
  const bench = (name: string, more: object = {}) => ({ bench: { name, ...more } });
  test("two benches, unless each says how exact it is", () => {
    const exact = { accuracy: ratio(0.002) };
    expect(said(bench("One"), bench("One"))).toBe("clear gain");
    expect(said(bench("One"), bench("Two"))).toBe("two benches");
    expect(said(bench("One"), {})).toBe("two benches");
    expect(said(bench("One", exact), bench("Two"))).toBe("two benches");
    expect(said(bench("One"), bench("Two", exact))).toBe("two benches");
    // Another bench is another condition: the port may have gained nothing.
    expect(said(bench("One", exact), bench("Two", exact))).toBe("clearly higher");
    expect(pair(bench("One"), bench("Two"))).toMatchObject({ like_for_like: false });
    expect(pair(bench("One"), bench("Two")).changes.map(({ verdict }) => verdict)).toEqual(Array(3).fill(undefined));
  });
  test("two benches have no ± that leaves out what they differ by, whatever else withholds the verdict", () => {
    const entry = { intakeEntry: "none" };
    for (const more of [{}, entry]) {
      const { changes, peak_change, ...mean } = pair(bench("One", more), bench("Two"));
      expect(mean.verdict_withheld).toBe("intakeEntry" in more ? "conditions" : "two benches");
      expect(mean).not.toHaveProperty("mean_change_uncertainty_ratio");
      for (const one of [...changes, peak_change])
        for (const key of ["uncertainty_m3_s", "joint_uncertainty_m3_s", "budget"]) expect(one).not.toHaveProperty(key);
    }
    const exact = { accuracy: ratio(0.002) };
    for (const one of pair(bench("One", exact), bench("Two", exact)).changes)
      expect(one.budget!.parts.accuracy).toBeGreaterThan(0.005);
  });
  test("a check plate that was off on either", () => {
    const off = { bench: { checkPlate: { nominal: 1, after: 1.03 } as never } };
    expect([said(off, {}), said({}, off), said(off, off)]).toEqual(Array(3).fill("check plate"));
    expect(pair(off, {})).not.toHaveProperty("mean_change_verdict");
  });
  test("a gain that only unsteady readings show", () => {
    const noisy = (...flows: readonly (number | string)[]) => ({ flow: rows(...(flows as number[])) });
    expect(said({}, noisy(40, "110!", 110))).toBe("too few repeats");
    expect(said(noisy(40, "60!", 80), { flow: rows(40, 60.4, 80.1) })).toBe("within repeatability");
    expect(said(noisy("20!", 80, 110), { flow: rows(40, 80, 110) })).toBe("too few repeats");
    // The steady ones show it as well, or the other way.
    // Without the unsteady reading the curve runs below it: that gap is no gain, for it is bridged on both sides.
    expect(said(noisy(40, "60!", 110), { flow: rows(40, 80, 110) })).toBe("too few repeats");
    expect(said({}, noisy(44, "88!", 121))).toBe("clear gain");
    expect(said(noisy("40!", 80, 110), {})).toBe("clear gain");
    expect(said({}, noisy(36, "160!", 99))).toBe("too few repeats");
    // Nothing steady is left, or a single reading over which there is no mean.
    expect(said({}, noisy("44!", "88!", "121!"))).toBe("too few repeats");
    expect(said({}, noisy("44!", 88, "121!"))).toBe("too few repeats");
    expect(said({}, noisy(40, "80!", 110))).toBe("within repeatability");
  });
  test("a gain that a gap between readings makes, on either side", () => {
    const whole: StageSketch = { flow: rows(40, 80, 110) };
    const gap: StageSketch = {
      flow: [
        [0.1, 40],
        [0.3, 110],
      ],
    };
    const less: StageSketch = { flow: rows(40, 74, 110) };
    // By the readings themselves 80 between 40 and 110 is above the line through the two, 74 nearly on it.
    expect([said(gap, whole), said(whole, gap)]).toEqual(["too few repeats", "too few repeats"]);
    expect(said(gap, less)).not.toMatch(/clear/);
    // At a lift that the report asks for, one side's reading against the other's curve over the gap.
    const report = { lifts: [{ kind: "lift", lift: inches(0.2) }] } as const;
    const asked = (...[from, to]: Parameters<typeof pair>) =>
      compare(
        [
          { name: "A", ...from },
          { name: "B", ...to },
        ],
        { report },
      )[0]!.changes.map(({ verdict, interpolated }) => [verdict, interpolated]);
    expect(asked(gap, whole)[1]).toEqual(["within repeatability", true]);
    expect(asked(whole, gap)[1]).toEqual(["within repeatability", true]);
    expect(asked(gap, { flow: rows(48, 96, 132) })[1]).toEqual(["clear gain", true]);
    // A gain at every lift stands across the gap as well, and so it does between readings in inches and in millimetres.
    expect(said(gap, { flow: rows(48, 96, 132) })).toBe("clear gain");
    const between = [0.11, 0.19, 0.29].map((lift, k): [number, number] => [lift, [52, 92, 130][k]!]);
    expect(said(whole, { flow: between })).toBe("clear gain");
  });
  test("a change no larger than the floor, of the mean or at a lift", () => {
    const again = (by: number) => ({ name: "Again", repeats: "A", flow: rows(40 * by, 80 * by, 110 * by) });
    const over = (by: number) => {
      const [found] = compare([{ name: "A", flow: first }, again(by), { name: "B", flow: second }]);
      return [found!.mean_change_verdict, ...found!.changes.map(({ verdict }) => verdict)];
    };
    expect(over(1.06)).toEqual(Array(4).fill("clear gain"));
    expect(over(1.11)).toEqual(Array(4).fill("within repeatability"));
  });
  test("sweeps of which one has no port have nothing to say, and two without one in common say so", () => {
    const sweep = (...ports: readonly string[]) =>
      ({
        ports,
        full: ports,
        points: [],
        good: [],
        source: { stage: { name: "a" }, set: { bench: { attached: {} } } },
      }) as never;
    const told = (from: never, to: never) =>
      compareSweeps({ from, to, side: "intake", same: true }, { lifts: [] } as never);
    for (const [from, to] of [
      [sweep(), sweep("1")],
      [sweep("1"), sweep()],
      [sweep(), sweep()],
    ])
      expect(told(from!, to!)).toMatchObject({ differences: [], changes: [], crossovers_m: [], like_for_like: false });
    expect(told(sweep("1"), sweep("2"))).toMatchObject({ not_compared: "no port in both" });
    const named = { from: sweep(), to: sweep(), side: "intake", same: true, fromLabel: "One", toLabel: "Two" } as const;
    expect(compareSweeps(named, { lifts: [] } as never)).toMatchObject({
      from: { label: "One" },
      to: { label: "Two" },
    });
  });
});

describe("what is compared", () => {
  const [a, b, c] = [rows(40, 80, 110), rows(40, 80, 110), rows(44, 88, 121)];
  test("the whole way is a gain of the port as each step is", () => {
    const [, step, whole] = compare([a, b, c].map((flow, k) => ({ name: `S${k}`, flow })));
    expect([step!.mean_change_verdict, whole!.mean_change_verdict]).toEqual(["clear gain", "clear gain"]);
  });
  test("another head is set beside the last stage of this one, and not where nothing was read of it", () => {
    const stages = [a, c].map((flow, k) => ({ name: `S${k}`, flow }));
    const beside = (flow: readonly Row[]) =>
      compare(stages, { compared: [{ label: "Other", stage: { name: "X", flow } }] });
    expect(names(beside(a))).toEqual(["S0 → S1", "Other → S1"]);
    expect(beside(a)[1]!.mean_change_verdict).toBe("clearly higher");
    expect(names(beside([[0.1, "-"]]))).toEqual(["S0 → S1"]);
    expect(names(compare([], { compared: [{ label: "Other", stage: { name: "X", flow: a } }] }))).toEqual([]);
  });
  test("a change at a lift between the readings of one, or of the other, is interpolated", () => {
    const denser: Row[] = rowsOf("0.1 40, 0.15 61, 0.2 80, 0.3 110");
    const report = { lifts: [{ kind: "lift", lift: inches(0.15) }] } as const;
    for (const flows of [
      [a, denser],
      [denser, a],
    ]) {
      const [found] = compare(
        flows.map((flow, k) => ({ name: `S${k}`, flow })),
        { report },
      );
      const at = found!.changes.filter(({ interpolated }) => interpolated);
      expect(at.map(({ lift_m }) => lift_m)).toEqual([inches(0.15)]);
      expect(Math.abs(at[0]!.change_m3_s) / CFM).toBeLessThan(2);
      expect(at[0]!.uncertainty_m3_s).toBeGreaterThan(0);
    }
  });
  test("the peak is that of the later stage, where the earlier was read so far", () => {
    const report = { lifts: [{ kind: "peak" }] } as const;
    const later: Row[] = rowsOf("0.1 44, 0.2 88, 0.25 130, 0.3 121");
    const [found] = compare(
      [
        { name: "A", flow: a },
        { name: "B", flow: later },
      ],
      { report },
    );
    const at = found!.changes.filter(({ interpolated }) => interpolated);
    expect(at.map(({ lift_m }) => lift_m / INCH)).toEqual([expect.closeTo(0.25, 9)]);
  });
});

describe("crossovers", () => {
  test("where one curve passes the other and both sides are clear", () => {
    const [pair] = compare([
      { name: "A", flow: rows(50, 90, 120, 130) },
      { name: "B", flow: rows(45, 84, 126, 140) },
    ]);
    expect(pair!.crossovers_m).toHaveLength(1);
    expect(pair!.crossovers_m[0]! / INCH).toBeGreaterThan(0.2);
    expect(pair!.crossovers_m[0]! / INCH).toBeLessThan(0.3);
  });
  test("none where one side is not clear", () => {
    const [pair] = compare([
      { name: "A", flow: rows(50, 90, 120, 130) },
      { name: "B", flow: rows(49.9, 89.8, 126, 140) },
    ]);
    expect(pair!.crossovers_m).toEqual([]);
  });
});

describe("the rule itself", () => {
  const known = (expanded: number, dof = 20) => ({ u: expanded / 2, dof, expanded, parts: {} });
  test.each([
    [5, known(4.9), 0, true, "clear gain"],
    [5, known(5), 0, true, "within repeatability"],
    [5, known(1), 5, true, "within repeatability"],
    [5, known(1), 4.9, true, "clear gain"],
    [-5, known(1), 0, true, "clear loss"],
    [5, known(1), 0, false, "clearly higher"],
    [-5, known(1), 0, false, "clearly lower"],
    [5, known(1, 1), 0, true, "clear gain"],
    [5, undefined, 0, true, "too few repeats"],
    [0, known(0), 0, true, "within repeatability"],
  ] as const)("%f against %j and %f", (change, uncertainty, floor, same, verdict) => {
    expect(verdictOn(change, uncertainty, floor, same)).toBe(verdict);
    expect(isClear(verdict)).toBe(verdict.startsWith("clear"));
  });
});
