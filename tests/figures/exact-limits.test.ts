import { describe, expect, test } from "vitest";
import { conversionError } from "../../src/figures/air/ideal-flow.ts";
import { checkPlateError } from "../../src/figures/checks/bench-conditions.ts";
import { camMeanFlow } from "../../src/figures/engine/cam-mean-flow.ts";
import { openingFlow } from "../../src/figures/engine/opening-flow.ts";
import type { ChangeFigures } from "../../src/figures/figures.ts";
import { compressionRatio } from "../../src/figures/geometry/chamber-figures.ts";
import { portMinimumArea } from "../../src/figures/geometry/port-geometry.ts";
import { logGamma } from "../../src/figures/math/incomplete-beta.ts";
import { distinctLifts, sharedLifts } from "../../src/figures/math/lifts.ts";
import { exceeds, isOutside } from "../../src/figures/math/limits.ts";
import { pchipSlopes } from "../../src/figures/math/pchip.ts";
import { rangeToDeviation } from "../../src/figures/math/range-factor.ts";
import { sensitivities, type Term } from "../../src/figures/math/uncertainty.ts";
import { crossovers } from "../../src/figures/side/crossovers.ts";
import { curtainCoefficientAt } from "../../src/figures/side/curtain-coefficient-at.ts";
import { curvePoints } from "../../src/figures/side/curve-points.ts";
import { afterPeak, peakReading, plateau } from "../../src/figures/side/curve-shape.ts";
import { exhaustToIntake } from "../../src/figures/side/exhaust-to-intake.ts";
import { flatSpots } from "../../src/figures/side/flat-spots.ts";
import { portSpread } from "../../src/figures/side/port-to-port.ts";
import { spreadOf } from "../../src/figures/side/sample-figures.ts";
import { pooledDeviation } from "../../src/figures/sweep/repeatability.ts";
import { type MountedReading, scatterOf, shownScatter } from "../../src/figures/sweep/scatter.ts";
import type { MeanReading } from "../../src/figures/sweep/sweep.ts";
import { uncertaintyOfDifference } from "../../src/figures/sweep/sweep-uncertainty.ts";
import { cubicMetres, cubicMetresPerSecond, type Metres, metres, pascals, ratio } from "../../src/units/quantity.ts";
import { sameLift } from "../../src/units/same-lift.ts";
import { degrees, describedPort, millimetres, modelOf, portOf } from "./model-fixture.ts";
import { curveAt, flowAtLift, flowBands, flowCurve, integralTo, sharedRange } from "./without-units.ts";

describe("limits and lifts", () => {
  test("a value is beyond its limit by more than a billionth", () => {
    expect([exceeds(1.1e-9, 0), exceeds(1e-9, 0), exceeds(0, 0), exceeds(1 + 2e-9, 1), exceeds(1 + 0.5e-9, 1)]).toEqual(
      [true, false, false, true, false],
    );
    expect([isOutside(0.8 - 2e-9, 0.8, 0.9), isOutside(0.8, 0.8, 0.9), isOutside(0.9 + 2e-9, 0.8, 0.9)]).toEqual([
      true,
      false,
      true,
    ]);
  });
  test("lifts are the same up to a micrometre", () => {
    expect([sameLift(0, 1e-6), sameLift(1e-6, 0), sameLift(0, 1.01e-6)]).toEqual([true, true, false]);
    expect(distinctLifts([0.003, 0.001, 0.0030005, 0.002])).toEqual([0.001, 0.002, 0.003]);
  });
  test("what several share is what every one of them has, and a range is longer than one lift", () => {
    expect(sharedLifts([[1, 2], [1], [2]])).toEqual([]);
    expect(
      sharedLifts([
        [1, 2, 3],
        [2, 3],
        [3, 2],
      ]),
    ).toEqual([2, 3]);
    expect(sharedLifts([])).toEqual([]);
    expect([sharedRange([], undefined), sharedRange([[]], 1), sharedRange([[0, 1e-6]], undefined)]).toEqual([
      undefined,
      undefined,
      undefined,
    ]);
  });
});

describe("a curve through readings", () => {
  // Moler's rule for the ends: a slope against the next chord's sign is at most three times its own chord.
  test.each([
    [[0, 1, -10], 3, "7 is cut to 3"],
    [[0, -1, 10], -3, "and as much below"],
    [[0, 1, -2.5], 3, "3.25 is cut to 3"],
    [[0, 1, -2], 3, "3 is 3"],
    [[0, 1, -1], 2.5, "2.5 stays"],
    [[0, -1, 1], -2.5, "and so does −2.5"],
    [[0, 1, 5], 0, "−0.5 would turn back"],
    [[0, 1, 4], 0, "0 is level"],
    [[0, 1, 1], 1.5, "level after it"],
  ])("the end slope of %j is %f: %s", (y, slope) => {
    expect(pchipSlopes([0, 1, 2], y)[0]).toBeCloseTo(slope, 12);
    // The same from the other end, where a slope counts backwards.
    expect(pchipSlopes([0, 1, 2], [...y].reverse())[2]).toBeCloseTo(-slope, 12);
  });
  test("a turn or a level stretch has no slope, two readings have one", () => {
    expect(pchipSlopes([0, 1, 2, 3], [0, 1, 1, 2]).slice(1, 3)).toEqual([0, 0]);
    expect(pchipSlopes([0, 1, 2], [0, 1, 0])[1]).toBe(0);
    expect(pchipSlopes([1, 3], [2, 8])).toEqual([3, 3]);
  });
  test("it gives each reading back to the last bit, and its integral from the first to any of them", () => {
    const lifts = [0.0017, 0.0031, 0.0049, 0.0067];
    const flows = [0.0213, 0.0391, 0.0567, 0.0601];
    const curve = flowCurve(lifts, flows);
    expect(lifts.map((lift) => curveAt(curve, lift))).toEqual(flows);
    const straight = flowCurve([1, 2, 3], [2, 4, 6]);
    expect([0, 0.5, 1, 1.5, 3, 4].map((to) => integralTo(straight, to))).toEqual([0, 0.25, 1, 2.25, 9, 9]);
  });
  const curve = flowCurve([1, 2.5, 4], [10, 30, 40]);
  test("it is drawn from the first reading to the last, through each, in steps of a sixtieth and less", () => {
    const points = curvePoints(curve);
    const lifts = points.map(([lift]) => lift);
    // Halfway falls on the reading at 2.5, so that 59 steps between bring 58 points.
    expect(points).toHaveLength(3 + 58);
    expect([lifts[0], lifts.at(-1)]).toEqual([1, 4]);
    for (const reading of [1, 2.5, 4]) expect(lifts).toContain(reading);
    for (const [k, lift] of lifts.entries())
      if (k > 0) {
        expect(lift).toBeGreaterThan(lifts[k - 1]!);
        expect(lift - lifts[k - 1]!).toBeLessThan(3 / 60 + 1e-9);
      }
    for (const [lift, flow] of points) expect(flow).toBe(curveAt(curve, lift));
  });
  test("bands that the readings do not reach are absent", () => {
    expect(Object.keys(flowBands(curve, 40))).toEqual(["low"]);
    expect(Object.keys(flowBands(curve, 10))).toEqual(["low", "mid", "high"]);
    expect(Object.keys(flowBands(curve, 2))).toEqual(["high"]);
  });
  test("two curves cross at the computed lifts", () => {
    const other = flowCurve([1, 2.5, 4], [12, 30.5, 36]);
    const clear = (lift_m: number, change_m3_s: number): ChangeFigures => ({
      lift_m,
      change_m3_s,
      from_m3_s: 1,
      change_ratio: 0,
      verdict: "clear gain",
    });
    for (const [from, to, sign] of [
      [curve, other, 1],
      [other, curve, -1],
    ] as const) {
      const [at, ...more] = crossovers(from, to, [clear(1, 2 * sign), clear(2.5, 0.5 * sign), clear(4, -4 * sign)]);
      expect(more).toEqual([]);
      expect(at).toBeGreaterThan(2.5);
      expect(at).toBeLessThan(4);
      expect(curveAt(from, at!)).toBeCloseTo(curveAt(to, at!)!, 9);
    }
  });
});

describe("a cam's opening", () => {
  const curve = flowCurve([0.005, 0.01], [0.05, 0.08]);
  const at = (angle: number, lift: number) => ({ angle, lift }) as never;
  const cam = (profile: never[], more: object = {}) => ({ netLift: metres(0.01), profile, ...more });
  const hump = [at(0, 0), at(0.1, 0.005), at(0.2, 0.01), at(0.3, 0.005), at(0.4, 0)];
  test("its mean is taken while the valve is open, however long it is shut before and after", () => {
    const shut = [at(-3, 0), at(-2, 0), ...hump, at(2, 0), at(3, 0)];
    const mean = camMeanFlow(curve, cam(hump))!;
    expect(camMeanFlow(curve, cam(shut))).toBeCloseTo(mean, 12);
    // Simpson's rule on each side of the peak, worked by hand from the curve.
    const f = (lift: number) => curveAt(curve, lift)!;
    const half = (a: number, b: number) => (f(a) + 4 * f((a + b) / 2) + f(b)) / 6;
    expect(mean).toBeCloseTo((half(0, 0.005) + half(0.005, 0.01)) / 2, 12);
    expect(camMeanFlow(curve, cam([at(0, 0), at(1, 0)]))).toBeUndefined();
  });
  test("a profile needs two points", () => {
    expect(camMeanFlow(curve, cam([at(0, 0.01), at(0.5, 0.01)]))).toBeCloseTo(0.08, 12);
    expect(openingFlow(curve, cam([at(0, 0.01), at(0.5, 0.01)]))).toEqual([
      [0, 0.08],
      [0.5, 0.08],
    ]);
    const calculated = camMeanFlow(curve, { netLift: metres(0.01) });
    expect(camMeanFlow(curve, cam([at(0, 0.01)]))).toBe(calculated);
    expect(openingFlow(curve, cam([at(0, 0.01)], { duration: 4, at: 0.001 }))).toHaveLength(73);
  });
  test("a profile that begins or ends open is followed from there, one that stays shut not at all", () => {
    const angles = (profile: never[]) => openingFlow(curve, cam(profile)).map(([angle]) => angle);
    expect(angles([at(0, 0.01), at(1, 0), at(2, 0)])).toEqual([0, 1]);
    expect(angles([at(0, 0), at(1, 0), at(2, 0.01)])).toEqual([0, 1]);
    expect(angles([at(0, 0.01), at(1, 0)])).toEqual([0, 1]);
    expect(angles([at(0, 0), at(1, 0.01)])).toEqual([0, 1]);
    expect(openingFlow(curve, cam([at(0, 0), at(1, 0), at(2, 0)]))).toEqual([]);
  });
  test("a check lift that the cam does not pass tells no duration", () => {
    const opened = (more: object) => openingFlow(curve, { netLift: metres(0.01), ...more }).length;
    expect([
      opened({ duration: 4, at: 0.0099 }),
      opened({ duration: 4, at: 0.01 }),
      opened({ duration: 4, at: 0.011 }),
      opened({ duration: 4 }),
      opened({ at: 0.001 }),
    ]).toEqual([73, 0, 0, 0, 0]);
  });
  test("a valve below its seat is shut, and beyond the last reading flows as there", () => {
    expect([-0.001, 0, 0.005, 0.01, 0.02].map((lift) => flowAtLift(curve, lift))).toEqual([0, 0, 0.05, 0.08, 0.08]);
  });
});

describe("the shape of a sweep", () => {
  /** Readings with independent standard uncertainties u, so that a rise has ± 2 √2 u. */
  const sweep = (flows: readonly number[], u?: number, dof = Number.POSITIVE_INFINITY): MeanReading[] =>
    flows.map((flow, k) => {
      const terms: Term[] = [{ part: "repeats", error: `${k}`, estimate: `${k}`, u: u!, dof }];
      const reading = {
        lift: metres(k + 1),
        flow: cubicMetresPerSecond(flow),
        ports: ["1"],
        partial: false,
        repeats: 1,
        mounts: 1,
        ranges: [""],
        doubtful: false,
        noisy: false,
      };
      return u === undefined ? reading : { ...reading, terms };
    });
  const one = () => false;
  const spots = (flows: readonly number[], u?: number, diameter: number | undefined = 20, meets = one) =>
    flatSpots(sweep(flows, u), diameter as Metres, meets).map((spot) => [spot.from_lift_m, spot.to_lift_m]);
  const held = (flows: readonly number[], u?: number, meets = one) => {
    const range = plateau(sweep(flows, u), meets);
    return range && [range.from_lift_m, range.to_lift_m];
  };
  test("a flat spot rises less than what stands before and after it, by more than the ± of that at 98 %", () => {
    // Two rises that share a reading: 2.3263 · √6 = 5.698.
    expect(spots([0, 10, 14.3, 24.3], 1)).toEqual([[2, 3]]);
    expect(spots([0, 10, 14.31, 24.31], 1)).toEqual([]);
    expect(spots([0, 10, 14.3, 24.2], 1)).toEqual([]);
    expect(spots([0, 9.9, 14.3, 24.3], 1)).toEqual([]);
    // A curve that falls there is flat too; one that only bends over is not, nor is what has no reading before or after it.
    expect(spots([0, 10, 8, 18], 1)).toEqual([[2, 3]]);
    expect(spots([0, 10, 12, 13, 13.5], 1)).toEqual([]);
    expect(spots([10, 12, 22], 1)).toEqual([]);
    expect(spots([0, 10, 12], 1)).toEqual([]);
  });
  test("a flat spot is 0.02 to 0.10 lift ÷ diameter long, beside stretches at least as long", () => {
    const flows = [0, 10, 12, 22];
    expect([50, 50.1, 10, 9.99].map((diameter) => spots(flows, 1, diameter).length)).toEqual([1, 0, 1, 0]);
    // Two steps long: the single steps beside it are flat too, or too short to be compared with.
    expect(spots([0, 10, 20, 21, 21.5, 31.5, 41.5], 1)).toEqual([[3, 5]]);
    expect(spots([10, 20, 21, 21.5, 31.5, 41.5], 1)).toEqual([]);
  });
  test("of overlapping flat spots the clearest is named; others stand by themselves", () => {
    // From 3 to 4 by 8 ÷ 5.698, from 3 to 5 by 6 ÷ 2.849.
    expect(spots([0, 10, 20, 20, 28, 38, 48], 1)).toEqual([[3, 5]]);
    expect(spots([0, 10, 11, 21, 22, 32], 1)).toEqual([
      [2, 3],
      [4, 5],
    ]);
  });
  test("without a ±, a diameter, or one range there is no flat spot", () => {
    const flows = [0, 10, 10, 20];
    expect(spots(flows)).toEqual([]);
    expect(flatSpots(sweep(flows, 1), undefined, one)).toEqual([]);
    expect(spots(flows, 1, 20, () => true)).toEqual([]);
  });
  test("a curve holds as far as readings lie within their ± of the peak, on both sides of it", () => {
    expect(held([90, 97.2, 100, 97.2, 90], 1)).toEqual([2, 4]);
    expect(held([97.2, 100, 97.1], 1)).toEqual([1, 2]);
    expect(held([97.1, 100, 97.2], 1)).toEqual([2, 3]);
    expect(held([100, 100])).toEqual([1, 2]);
    expect(held([99, 100])).toEqual([2, 2]);
    expect(held([])).toBeUndefined();
    expect(held([97.2, 100, 97.1], 1, () => true)).toBeUndefined();
  });
  test("after the peak it falls by its share, with the ± of that share", () => {
    expect(afterPeak(sweep([50, 100, 90], 1), one)).toMatchObject({
      to_lift_m: 3,
      change: expect.closeTo(-0.1, 12),
      // 2 · √(1² + 0.9²) ÷ 100.
      uncertainty: expect.closeTo(0.0269072, 6),
      verdict: "clear loss",
    });
    expect(afterPeak(sweep([50, 100, 90]), one)).toEqual({
      to_lift_m: 3,
      change: expect.closeTo(-0.1, 12),
      verdict: "too few repeats",
    });
    expect([afterPeak([], one), afterPeak(sweep([0, 0]), one)]).toEqual([undefined, undefined]);
    expect(afterPeak(sweep([50, 100, 90], 1), () => true)).toBeUndefined();
    expect(afterPeak(sweep([50, 100], 1), () => true)).toEqual({ to_lift_m: 2, change: 0 });
    expect(peakReading([])).toBeUndefined();
  });
  test("few degrees of freedom refuse no ±: it grows", () => {
    const rise = (dof: number) => {
      const [, b] = sweep([1, 2], 1, dof);
      return uncertaintyOfDifference(b!.terms, [], "own")!;
    };
    expect(rise(1)).toMatchObject({ dof: 1, expanded: expect.closeTo(13.968, 3) });
    expect(rise(2)).toMatchObject({ dof: 2, expanded: expect.closeTo(4.527, 3) });
  });
});

describe("ports and engines", () => {
  const port = (angle: number, changes: object = {}) => ({
    ...describedPort({ valve: 44, stem: 8, throat: 37.5, seatWidth: 1.5, seatAngle: angle }),
    ...changes,
  });
  const area = (...given: Parameters<typeof port>) => portMinimumArea(port(...given), millimetres(4));
  test("a seat lies between flat and upright", () => {
    expect([-10, 0, 90, 100].map((angle) => area(angle))).toEqual(Array(4).fill(undefined));
    expect([1, 70, 89].map((angle) => area(angle) !== undefined)).toEqual([true, true, true]);
  });
  test("a stem leaves an opening in the throat", () => {
    const stem = (size?: number) =>
      area(45, { valves: [{ head: millimetres(44), ...(size === undefined ? {} : { stem: millimetres(size) }) }] });
    expect([stem(), stem(37.5), stem(40)]).toEqual([undefined, undefined, undefined]);
    expect(stem(37)!.area).toBeGreaterThan(0);
  });
  test("a seat that is wider than its valve has no area", () => {
    const seat = { angle: degrees(45), width: millimetres(35), bottom: [] };
    expect(area(45, { seat, throat: millimetres(30) })).toBeUndefined();
  });
  test("the outside of a seat is that of valves alike, unlike ones stand for themselves", () => {
    const valve = (head: number) => ({ head: millimetres(head), stem: millimetres(8) });
    const seat = { angle: degrees(45), width: millimetres(1.5), bottom: [], outside: millimetres(43) };
    const of = (heads: readonly number[], outside?: number) =>
      portMinimumArea(
        port(45, {
          valves: heads.map(valve),
          seat: { ...seat, ...(outside === undefined ? {} : { outside: millimetres(outside) }) },
        }),
        millimetres(4),
      )!.area;
    const single = (head: number) => of([head], head);
    expect(of([44, 44])).toBeCloseTo(2 * single(43), 12);
    expect(of([44, 44, 40])).toBeCloseTo(2 * single(44) + single(40), 12);
  });
  test("of unlike valves the stage is the highest of theirs at any lift, whichever is named first", () => {
    const [small, large] = [28, 44].map((head) => ({ head: millimetres(head), stem: millimetres(6) }));
    const stage = (lift: number, ...valves: readonly (typeof small)[]) =>
      portMinimumArea(port(45, { valves, throat: millimetres(24) }), millimetres(lift))!.stage;
    const seen = new Set<string>();
    for (let lift = 0.5; lift < 12; lift += 0.5) {
      const [one, other] = [stage(lift, small), stage(lift, large)];
      seen.add(`${one} ${other}`);
      expect([stage(lift, small, large), stage(lift, large, small)]).toEqual(Array(2).fill(Math.max(one, other)));
    }
    expect(seen.size).toBeGreaterThan(3);
  });
  const engine = (dish: number) => ({
    bore: metres(1),
    stroke: metres(2),
    gasket: { kind: "volume", volume: cubicMetres(1) } as const,
    piston: { dish: cubicMetres(dish), belowDeck: metres(0) },
    cams: {},
  });
  test("a dome as large as the chamber leaves no ratio", () => {
    expect([-4, -5].map((dish) => compressionRatio(engine(dish), cubicMetres(3)))).toEqual([undefined, undefined]);
    // Swept π ÷ 4 · 1² · 2 over a clearance of 1.
    expect(compressionRatio(engine(-3), cubicMetres(3))).toBeCloseTo(1 + Math.PI / 2, 12);
  });
  test("a coefficient at a lift needs a valve and readings that reach it", () => {
    const readings = [{ lift_m: 0.005, flow_m3_s: 0.05 }];
    const side = { valves: 1, valve_diameter_m: 0.04, readings };
    // 0.05 ÷ (π · 0.04 · 0.005 · 100).
    expect(curtainCoefficientAt(side, 0.125, 100)).toBeCloseTo(0.7957747, 6);
    expect(curtainCoefficientAt({ valves: 1, readings }, 0.125, 100)).toBeUndefined();
    expect(curtainCoefficientAt({ ...side, readings: [] }, 0.125, 100)).toBeUndefined();
    const shut = [{ lift_m: 0, flow_m3_s: 0.001 }, ...readings];
    expect(curtainCoefficientAt({ ...side, readings: shut }, 0.125, 100)).toBeCloseTo(0.7957747, 6);
  });
  test("a check plate may read high or low, before or after", () => {
    const off = (before?: number, after?: number) =>
      checkPlateError({ checkPlate: { nominal: 100, ...(before && { before }), ...(after && { after }) } } as never);
    for (const error of [off(97), off(103), off(undefined, 97), off(undefined, 103), off(97, 101), off(101, 103)])
      expect(error).toBeCloseTo(0.03, 12);
    expect(off()).toBe(0);
  });
});

describe("numbers of readings", () => {
  test("a range of more than 25 counts as one of 25, and of part of a reading as none", () => {
    expect(rangeToDeviation(1, 40)!.s).toBe(rangeToDeviation(1, 25)!.s);
    expect(rangeToDeviation(1, 26)!.s).toBe(rangeToDeviation(1, 25)!.s);
    expect(rangeToDeviation(1, 5.9)).toEqual(rangeToDeviation(1, 5));
    expect([rangeToDeviation(1, 1), rangeToDeviation(1, 1.9)]).toEqual([undefined, undefined]);
  });
  test("one reading tells no deviation, nor do readings without flow", () => {
    expect(pooledDeviation([[1], [0, 0], []])).toBeUndefined();
    // Deviations of ± 1 % about the mean: s² = 2 · 10⁻⁴ over one degree of freedom.
    expect(pooledDeviation([[1], [0, 0], [0.99, 1.01]])).toEqual({ s: expect.closeTo(Math.SQRT2 / 100, 12), dof: 1 });
    expect(Object.keys(spreadOf([1]))).not.toContain("standard_deviation_m3_s");
  });
  test("two degrees of freedom of its own go before what a bench states, one comes after and makes nothing", () => {
    const bench = { repeatability: { kind: "expanded", value: ratio(0.02) } } as const;
    const shown = (...flows: readonly number[]) =>
      shownScatter(flows.map((flow): MountedReading => ({ port: "1", cylinder: "1", mount: "1", lift: 0.01, flow })));
    const from = (flows: readonly number[], of: Parameters<typeof scatterOf>[1] = bench) =>
      scatterOf(shown(...flows), of).repeatability?.from;
    expect([from([1, 1.01, 1.02]), from([1, 1.01]), from([1, 1.01], {}), from([1])]).toEqual([
      "repeats",
      "stated",
      undefined,
      "stated",
    ]);
    expect(scatterOf(shown(1), bench).repeatability).toEqual({
      from: "stated",
      ratio: 0.01,
      dof: Number.POSITIVE_INFINITY,
    });
  });
  test("ports differ by the share of their mean, and an exhaust is a share of an intake that flows", () => {
    expect(portSpread([1e-8, 3e-8])).toBeCloseTo(1, 9);
    const good = (flow: number, port = "1") =>
      ({ ports: [port], full: [port], good: [{ lift: 0.001, flow }] }) as never;
    expect(exhaustToIntake({}, good(1e-8), good(2e-8))[0]!.ratio).toBeCloseTo(2, 9);
    expect(exhaustToIntake({}, good(0), good(2e-8))).toEqual([]);
    expect(exhaustToIntake({}, good(1e-8), good(2e-8, "2"))).toEqual([]);
    // For a cylinder: two intake ports and one exhaust port.
    const ports = { intake: portOf({ ports: 2 }), exhaust: portOf() };
    expect(exhaustToIntake(ports, good(1e-8), good(2e-8))[0]!.ratio).toBeCloseTo(1, 9);
  });
  test("readings without flow change nothing", () => {
    const sum = (flows: readonly number[]) => flows.reduce((all, one) => all + one, 0);
    expect([sensitivities(sum, [0, 0]), sensitivities(sum, [])]).toEqual([[0, 0], []]);
    for (const slope of sensitivities(sum, [-1, 2])) expect(slope).toBeCloseTo(1, 9);
  });
  test("a conversion's error is a size, whichever way it is converted", () => {
    const { air } = modelOf({}).reference;
    for (const side of ["intake", "exhaust"] as const)
      for (const [from, to] of [
        [2500, 7000],
        [7000, 2500],
      ] as const)
        expect(conversionError(side, pascals(from), pascals(to), air)).toBeGreaterThan(0);
    expect(conversionError("intake", pascals(7000), pascals(7000), air)).toBe(0);
  });
  // DLMF 5.5.1 and 5.5.3: Γ(x + 1) = x Γ(x), and Γ(x) Γ(1 − x) = π ÷ sin πx.
  test.each([0.1, 0.3, 0.49])("the gamma function meets its reflection formula at %f", (x) => {
    expect(logGamma(x) + logGamma(1 - x)).toBeCloseTo(Math.log(Math.PI / Math.sin(Math.PI * x)), 12);
    expect(logGamma(x + 1) - logGamma(x)).toBeCloseTo(Math.log(x), 12);
  });
});
