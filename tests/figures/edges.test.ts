import { describe, expect, test } from "vitest";
import { gasSpeed } from "../../src/figures/air/sound-speed.ts";
import { computeFigures } from "../../src/figures/compute-figures.ts";
import { speedGrid } from "../../src/figures/engine/engine-figures.ts";
import { openingFlow } from "../../src/figures/engine/opening-flow.ts";
import { highestPistonSpeed } from "../../src/figures/engine/piston-speed.ts";
import type { ChangeFigures } from "../../src/figures/figures.ts";
import { meanPortArea, portMinimumArea, portVolume } from "../../src/figures/geometry/port-geometry.ts";
import { curtainArea } from "../../src/figures/geometry/valve-areas.ts";
import { incompleteBeta, logGamma } from "../../src/figures/math/incomplete-beta.ts";
import { rangeToDeviation } from "../../src/figures/math/range-factor.ts";
import { crossovers } from "../../src/figures/side/crossovers.ts";
import { exhaustToIntake } from "../../src/figures/side/exhaust-to-intake.ts";
import { portSpread } from "../../src/figures/side/port-to-port.ts";
import { verdictOn } from "../../src/figures/sweep/verdict.ts";
import { cubicMetres, metres, metresPerSecond, ratio, rpm } from "../../src/units/quantity.ts";
import { cfm, millimetres, modelOf, portOf, type Row, rowsOf, type Sketch } from "./model-fixture.ts";
import { flowCurve, meanFlow, sharedRange } from "./without-units.ts";

/** Sizes that no job gives, for job/ refuses them: a bug of ours, never a figure. */
describe("sizes out of range throw", () => {
  test.each([0, -0.03, Number.NaN, Number.POSITIVE_INFINITY])("a curtain of diameter %s", (diameter) => {
    expect(() => curtainArea(metres(diameter), metres(0.01))).toThrow(/diameter/);
  });
  test.each([-1e-6, Number.NaN, Number.POSITIVE_INFINITY])("a curtain at lift %s", (lift) => {
    expect(() => curtainArea(metres(0.03), metres(lift))).toThrow(/lift/);
  });
  test("but at zero lift the curtain area is 0", () => expect(curtainArea(metres(0.03), metres(0))).toBe(0));
  test("a rod no longer than the crank", () => {
    expect(() => highestPistonSpeed(millimetres(80), millimetres(40), rpm(6000))).toThrow(/rod/);
  });
});

// DLMF 5.4.6 and 5.5.1: Γ(1/4) = 3.625609908221908; 8.17.4 and 8.17.7: I_x(a, 1) = xᵃ, I_x(1, b) = 1 − (1 − x)ᵇ.
describe("gamma and beta functions at small arguments", () => {
  test("Γ(1/4)", () => expect(Math.exp(logGamma(0.25))).toBeCloseTo(3.625609908221908, 12));
  test("at their ends", () => {
    expect([-1, 0, 1, 2].map((x) => incompleteBeta(x, 2, 3))).toEqual([0, 0, 1, 1]);
  });
  test.each([0.01, 0.3, 0.75, 0.99])("incomplete beta at %s", (x) => {
    for (const a of [0.25, 0.5, 3, 40]) {
      expect(incompleteBeta(x, a, 1)).toBeCloseTo(x ** a, 12);
      expect(incompleteBeta(x, 1, a)).toBeCloseTo(1 - (1 - x) ** a, 12);
    }
  });
});

/**
 * d₂ and d₃ are mean and deviation of the range W of n normal values: E(W) = ∫ 1 − Φⁿ − (1 − Φ)ⁿ dx and
 * E(W²) = 2 ∬_{x<y} 1 − Φ(y)ⁿ − (1 − Φ(x))ⁿ + (Φ(y) − Φ(x))ⁿ dx dy; printed tables have three decimals.
 */
test("a range of n readings has the deviation and the degrees of freedom of normal values", () => {
  const step = 0.05;
  const phi = Array.from({ length: 12 / step }, (_, k) => normal(-6 + (k + 0.5) * step));
  for (let n = 2; n <= 25; n++) {
    let mean = 0;
    let square = 0;
    phi.forEach((low, i) => {
      mean += (1 - low ** n - (1 - low) ** n) * step;
      for (const [k, high] of phi.slice(i).entries())
        square += (k === 0 ? 1 : 2) * (1 - high ** n - (1 - low) ** n + (high - low) ** n) * step ** 2;
    });
    const { s, dof } = rangeToDeviation(1, n)!;
    expect(Math.abs(1 / s - mean)).toBeLessThan(1.5e-3);
    // Patnaik: ν ≈ (d₂ ÷ d₃)² ÷ 2 + ¼, and never more than n − 1.
    const wanted = Math.min(mean ** 2 / (square - mean ** 2) / 2 + 0.25, n - 1);
    expect(Math.abs(dof / wanted - 1)).toBeLessThan(5e-3);
  }
});
/** Φ by Simpson's rule: no table, no library. */
function normal(x: number): number {
  const density = (t: number) => Math.exp((-t * t) / 2) / Math.sqrt(2 * Math.PI);
  const h = x / 60;
  let sum = density(0) + density(x);
  for (let k = 1; k < 60; k++) sum += density(k * h) * (k % 2 ? 4 : 2);
  return 0.5 + (sum * h) / 3;
}

describe("nothing is said beyond what was measured", () => {
  const curve = flowCurve([1, 2, 3], [10, 20, 30]);
  test("no mean from below the curve, beyond its end, or over nothing", () => {
    expect(meanFlow(curve, 1, 3)).toBeCloseTo(20, 12);
    expect(meanFlow(curve, 0, 3)).toBeCloseTo(15, 12);
    expect([meanFlow(curve, -0.1, 2), meanFlow(curve, 1, 3.1), meanFlow(curve, 2, 2), meanFlow(curve, 3, 1)]).toEqual(
      Array(4).fill(undefined),
    );
  });
  test("the range of two sweeps: what they share, else from the later start to the earlier end, and no further than the cam", () => {
    const lists = [
      [1, 3, 7],
      [2, 3, 9],
    ];
    expect(sharedRange(lists, undefined)).toEqual({ from: 2, to: 7 });
    expect(sharedRange(lists, 5)).toEqual({ from: 2, to: 5 });
    expect(sharedRange([...lists, [3, 7, 8]], undefined)).toEqual({ from: 3, to: 7 });
    const shared = [
      [1, 2, 3, 9],
      [0.5, 2, 3, 10],
    ];
    expect(sharedRange(shared, undefined)).toEqual({ from: 2, to: 3 });
    expect(sharedRange(shared, 2)).toBeUndefined();
    expect(sharedRange([[1, 2], []], undefined)).toBeUndefined();
  });
  test("speeds go in steps of 250 and end where they were asked to", () => {
    expect(speedGrid(rpm(2000), rpm(2500))).toEqual([2000, 2250, 2500]);
    expect(speedGrid(rpm(2000), rpm(2600))).toEqual([2000, 2250, 2500, 2600]);
    expect(speedGrid(rpm(2000), rpm(2000))).toEqual([2000]);
    expect(speedGrid(rpm(2000), rpm(1999))).toEqual([]);
  });
  test("a cam's profile is followed from the last shut point before it opens to the first after it", () => {
    const at = (angle: number, lift: number) => ({ angle, lift });
    const profile = [at(-20, 0), at(-10, 0), at(0, 0), at(10, 1), at(20, 2), at(30, 0), at(40, 0)];
    const opened = openingFlow(curve, { netLift: 2, profile } as never).map(([angle]) => angle);
    expect(opened).toEqual([0, 10, 20, 30]);
    // A profile that begins with the valve open has no point before it.
    expect(openingFlow(curve, { netLift: 2, profile: profile.slice(3) } as never).map(([angle]) => angle)).toEqual([
      0, 10, 20,
    ]);
  });
});

describe("ports", () => {
  test("a volume by cylinder is the mean, one that was stated goes first", () => {
    const volumes = [1e-4, 1.4e-4].map((volume, k) => ({ cylinder: k + 1, volume: cubicMetres(volume) }));
    expect(portVolume(portOf({ portVolumes: volumes }))).toBeCloseTo(1.2e-4, 12);
    expect(portVolume(portOf({ portVolumes: volumes, portVolume: cubicMetres(2e-4) }))).toBe(2e-4);
    expect(portVolume(portOf())).toBeUndefined();
  });
  test("a mean area needs both of its sizes, and neither from before the work", () => {
    const sizes = { portVolume: cubicMetres(1e-4), portLength: metres(0.1) };
    expect(meanPortArea(portOf(sizes))).toBeCloseTo(1e-3, 12);
    for (const key of ["port_volume", "port_length"] as const)
      expect(meanPortArea(portOf({ ...sizes, stale: [key] }))).toBeUndefined();
  });
  test("of unlike valves the stage is the highest, in either order", () => {
    const small = { head: millimetres(28), stem: millimetres(6) };
    const large = { head: millimetres(44), stem: millimetres(8) };
    const port = (heads: readonly (typeof small)[]) =>
      portMinimumArea(portOf({ valves: heads, throat: millimetres(25) } as never), millimetres(9));
    const [one, other] = [port([small, large]), port([large, small])];
    expect(one!.stage).toBe(other!.stage);
    expect(one!.stage).toBe(Math.max(port([small])!.stage, port([large])!.stage));
    expect(one!.area).toBeCloseTo(other!.area, 15);
  });
  test("without a valve there is no share of it, and no key for one", () => {
    const { stages } = computeFigures(modelOf({ lifts: "mm", stages: [{ intake: { valves: [] }, flow: [[4, 85]] }] }));
    expect(Object.keys(stages[0]!.intake!)).not.toContain("throat_ratio");
    expect(Object.keys(stages[0]!.intake!)).not.toContain("valve_diameter_m");
  });
});

describe("comparisons", () => {
  const [from, to] = [flowCurve([1, 2, 3], [10, 20, 30]), flowCurve([1, 2, 3], [12, 20, 26])];
  const change = (lift_m: number, change_m3_s: number, more: Partial<ChangeFigures> = {}): ChangeFigures => ({
    lift_m,
    change_m3_s,
    from_m3_s: 1,
    change_ratio: 0,
    verdict: "clear gain",
    ...more,
  });
  test("curves cross between two clear changes, and only where both were measured", () => {
    expect(crossovers(from, to, [change(1, 2), change(3, -4)])[0]).toBeCloseTo(2, 9);
    expect(crossovers(from, to, [change(1, 2), change(3, -4, { interpolated: true })])).toEqual([]);
    expect(crossovers(from, to, [change(1, 2), change(3, -4, { verdict: "within repeatability" })])).toEqual([]);
    expect(crossovers(from, to, [change(1, 2), change(3, 4)])).toEqual([]);
    // The other way round the curve that was above lies below.
    expect(crossovers(to, from, [change(1, -2), change(3, 4)])[0]).toBeCloseTo(2, 9);
  });
  test("a change is clear beyond the ± and beyond the floor, and equal to either it is not", () => {
    const say = (value: number, floor = 0, dof = 10) => verdictOn(value, { expanded: 2, dof } as never, floor, true);
    expect([say(2.01), say(2), say(-2.01), say(-2)]).toEqual([
      "clear gain",
      "within repeatability",
      "clear loss",
      "within repeatability",
    ]);
    expect([say(3, 3), say(3.01, 3)]).toEqual(["within repeatability", "clear gain"]);
    expect(say(3, 0, 1)).toBe("clear gain");
  });

  const bench = { repeatability: { kind: "expanded", value: 0.01 } } as never;
  const twice = (first: readonly Row[], again: readonly Row[]): Sketch => ({
    lifts: "mm",
    bench,
    stages: [
      { name: "As received", flow: first },
      { name: "Again", repeats: "As received", flow: again },
      { name: "Finished", flow: first },
    ],
  });
  test("a stage measured again sets a floor from misses of either sign", () => {
    const rows: Row[] = [
      [4, 100],
      [8, 100],
    ];
    const missed: Row[] = [
      [4, 102],
      [8, 96],
    ];
    const floors = computeFigures(modelOf(twice(rows, missed))).comparisons.map(({ floor_ratio }) => floor_ratio);
    // (2 + 4) ÷ 200.
    expect(floors.filter((floor) => floor !== undefined).length).toBeGreaterThan(0);
    for (const floor of floors) if (floor !== undefined) expect(floor).toBeCloseTo(0.03, 9);
  });
  test("a stage measured again at other lifts sets no floor, and no doubt either", () => {
    const rows: Row[] = [
      [4, 100],
      [8, 100],
    ];
    const { stages, ...rest } = twice(rows, [[6, 100]]);
    const better: Row[] = [
      [4, 120],
      [8, 120],
    ];
    const sketch = { ...rest, stages: [stages![0]!, stages![1]!, { name: "Finished", flow: better }] };
    const finished = computeFigures(modelOf(sketch)).comparisons.filter(({ to }) => to.stage === "Finished");
    expect(finished.map(({ floor_ratio, mean_change_verdict }) => [floor_ratio, mean_change_verdict])).toContainEqual([
      undefined,
      "clear gain",
    ]);
  });
  test("a cylinder that was read at a few lifts only is an evenness check of the one that was read at more", () => {
    const runs = [
      { rows: [[4, 100]] as Row[] },
      {
        cylinder: 2,
        rows: [
          [4, 104],
          [8, 150],
        ] as Row[],
      },
    ];
    const { cylinders, readings } = computeFigures(modelOf({ lifts: "mm", stages: [{ runs }] })).stages[0]!.intake!;
    expect(readings.map(({ of_cylinders }) => of_cylinders)).toEqual([[2], [2]]);
    expect(cylinders.map(({ cylinder, peak_flow_m3_s }) => [cylinder, Math.round(peak_flow_m3_s / cfm(1))])).toEqual([
      [1, 100],
      [2, 150],
    ]);
  });
  test("one port has no spread, and neither have ports without flow", () => {
    expect([portSpread([0.1]), portSpread([0, 0]), portSpread([])]).toEqual([undefined, undefined, undefined]);
    expect(portSpread([0.09, 0.11])).toBeCloseTo(0.2, 12);
  });
  test("named lifts are those next to the mark, whether or not the stages share any", () => {
    const named = (...stages: readonly (readonly Row[])[]) =>
      computeFigures(modelOf({ lifts: "mm", stages: stages.map((flow) => ({ intake: {}, flow })) })).stages.map(
        ({ intake }) => intake!.compared.filter(({ at }) => at !== "peak").map(({ at, lift_m }) => [at, lift_m * 1000]),
      );
    // Of a 44 mm valve 0.10, 0.18 and 0.25 are 4.40, 7.92 and 11.00 mm.
    const near = (lifts: readonly number[]) => lifts.map((lift) => [lift, lift * 10] as Row);
    const [one] = named(near([4.3, 4.51, 7.85, 8, 10.95, 11.06]));
    expect(one!.map(([, lift]) => Number((lift as number).toFixed(3)))).toEqual([4.3, 7.85, 10.95]);
    const [, last] = named(near([4, 8, 11]), near([4.5, 7.5, 10.5]));
    expect(last!.map(([, lift]) => Number((lift as number).toFixed(3)))).toEqual([4.5, 7.5, 10.5]);
  });
});

describe("figures of missing inputs", () => {
  const rows: Row[] = rowsOf("4 100, 8 150, 12 160");
  const intake = (sketch: Sketch) => computeFigures(modelOf({ lifts: "mm", ...sketch })).stages[0]!.intake!;
  test("flow over the opening needs a cam that says when it opens, and readings", () => {
    const cam = { netLift: millimetres(12), duration: 4, at: millimetres(1) };
    const engine = (more: object) => ({ cams: { intake: { netLift: millimetres(12), ...more } } }) as never;
    const open = intake({ engine: engine(cam), stages: [{ flow: rows }] }).opening!;
    // As high as the cam lifts in the middle, shut at both ends.
    const [, middle] = open[(open.length - 1) / 2]!;
    expect([open[0]![1], open.at(-1)![1]].map((flow) => Math.round(flow * 1e9))).toEqual([0, 0]);
    expect(middle).toBeCloseTo(cfm(160), 12);
    expect(Object.keys(intake({ engine: engine({}), stages: [{ flow: rows }] }))).not.toContain("opening");
    const unread = intake({ engine: engine(cam), stages: [{ intake: {}, flow: [[4, "-"]] }] });
    expect(Object.keys(unread)).not.toContain("opening");
    expect(Object.keys(unread)).not.toContain("cam_mean_flow_m3_s");
  });
  test("a side that nobody described has one valve on one port", () => {
    expect(intake({ stages: [{ flow: rows }] })).toMatchObject({ valves: 1, ports: 1, not_remeasured: [] });
  });
  test("a stage on which nothing good was read is compared with nothing, and nothing is said of it", () => {
    const none: Row[] = [
      [4, "-"],
      [8, "~99"],
    ];
    const both = (first: readonly Row[], second: readonly Row[]) =>
      computeFigures(modelOf({ lifts: "mm", stages: [first, second].map((flow) => ({ intake: {}, flow })) }));
    for (const figures of [both(none, rows), both(rows, none), both(none, none)])
      expect(figures.comparisons.map(({ changes, differences }) => [changes, differences])).toEqual(
        figures.comparisons.map(() => [[], []]),
      );
    expect(both(none, none).stages.map(({ intake }) => intake!.compared)).toEqual([[], []]);
  });
  test("ports flowed in neither stage alike are said to be so", () => {
    const stage = (cylinder: number) => ({ runs: [{ cylinder, rows }] });
    const told = computeFigures(modelOf({ lifts: "mm", stages: [stage(1), stage(2)] })).comparisons;
    expect(told.map(({ differences }) => differences)).toEqual([["no port was flowed in both"]]);
  });
  test("an exhaust that was not flowed has no share of the intake", () => {
    expect(exhaustToIntake({}, { ports: ["1"], good: [{ lift: 1, flow: 1 }] } as never, undefined)).toEqual([]);
    expect(exhaustToIntake({}, undefined, { ports: ["1"], good: [{ lift: 1, flow: 1 }] } as never)).toEqual([]);
  });
  test("a speed stated outright stays as it is, a Mach number is a share of the speed of sound", () => {
    expect(gasSpeed({ kind: "absolute", value: metresPerSecond(100) }, metresPerSecond(340))).toBe(100);
    expect(gasSpeed({ kind: "mach", value: ratio(0.5) }, metresPerSecond(340))).toBe(170);
  });
  test("a pressure a millionth off the reference's is the reference's", () => {
    const converted = (factor: number) =>
      intake({ stages: [{ flow: [[4, 85, undefined, 28 * factor]] }] }).readings[0]!.converted_from_Pa;
    expect([converted(1 + 0.9e-6), converted(1 + 1.1e-6) !== undefined]).toEqual([undefined, true]);
  });
});

describe("what was left out", () => {
  test("is told at each lift, each reading struck out for itself", () => {
    const flow: Row[] = [
      [2, "-"],
      [4, 85],
      [6, "~99"],
      [6, "~98"],
      [8, "-"],
      [10, "-"],
    ];
    const { left_out } = computeFigures(modelOf({ lifts: "mm", stages: [{ flow }] })).stages[0]!.intake!;
    expect(left_out.map(({ lift_m, kind }) => [Math.round(lift_m * 1000), kind])).toEqual([
      [2, "missing"],
      [6, "struck out"],
      [6, "struck out"],
      [8, "missing"],
      [10, "missing"],
    ]);
  });
  test("a pressure other than the reference's is named by the one that lies furthest off", () => {
    const flow: Row[] = [[4, 85, undefined, 10]];
    const runs = [{ rows: flow }, { mount: 2, rows: [[4, 85, undefined, 25]] as Row[] }];
    const { readings } = computeFigures(modelOf({ lifts: "mm", stages: [{ runs }] })).stages[0]!.intake!;
    expect(readings[0]!.converted_from_Pa).toBeCloseTo(10 * 249.08891, 6);
  });
});

describe("samples of other heads", () => {
  test("each side by itself, and none where nothing was flowed", () => {
    const sample = (flow: readonly Row[]) => ({ flow });
    const of = (...samples: readonly (readonly Row[])[]) =>
      computeFigures(modelOf({ lifts: "mm", stages: [], samples: samples.map(sample) })).sample!;
    const both = of([[4, 80, 60]], [[4, 84, 66]]);
    expect(both.exhaust!.readings[0]).toMatchObject({ n: 2, low_m3_s: cfm(60), high_m3_s: cfm(66) });
    expect(both.exhaust!.readings[0]!.mean_m3_s).toBeCloseTo(cfm(63), 12);
    expect(both.intake!.readings[0]!.standard_deviation_m3_s).toBeCloseTo(cfm(Math.sqrt(8)), 12);
    expect(Object.keys(of([[4, 80]]))).toEqual(["n", "intake"]);
    expect(Object.keys(of([[4, undefined, 80]]))).toEqual(["n", "exhaust"]);
  });
});
