import { describe, expect, test } from "vitest";
import { computeFigures } from "../../src/figures/compute-figures.ts";
import type { Figures } from "../../src/figures/figures.ts";
import { metres, ratio, rpm, squareMetres, type WattsPerFlow } from "../../src/units/quantity.ts";
import { inclined } from "./demo-heads.ts";
import { CFM, cfm, describedPort, inches, millimetres, modelOf, type Row, type Sketch } from "./model-fixture.ts";

const figuresOf = (sketch: Sketch): Figures => computeFigures(modelOf(sketch));
const half = (value: number) => ({ kind: "expanded", value: ratio(value) }) as const;
const rows = (...flows: number[]): Row[] => flows.map((flow, k) => [(k + 1) / 10, flow]);

describe("either side alone", () => {
  const only = (side: "intake" | "exhaust") =>
    figuresOf({
      lifts: "mm",
      stages: inclined.map(({ name, flow }) => ({
        name,
        flow: flow!.map((row): Row => (side === "intake" ? [row[0], row[1]] : [row[0], undefined, row[2]])),
      })),
    });
  test.each(["intake", "exhaust"] as const)("%s: the other is absent, not empty", (side) => {
    const other = side === "intake" ? "exhaust" : "intake";
    const figures = only(side);
    for (const stage of figures.stages) {
      expect(stage[side]!.readings).toHaveLength(7);
      expect(stage).not.toHaveProperty(other);
      expect(stage.exhaust_to_intake).toEqual([]);
    }
    expect(figures.comparisons.map((pair) => pair.side)).toEqual([side]);
  });
  test("a side that was described but not flowed has its dimensions and no flow", () => {
    const { intake, exhaust } = figuresOf({ stages: [{ exhaust: {}, flow: rows(40, 80) }] }).stages[0]!;
    expect(intake!.readings).toHaveLength(2);
    expect(exhaust).toMatchObject({ valve_diameter_m: 0.044, readings: [], left_out: [], curve: [], cylinders: [] });
    expect(exhaust!.peak).toBeUndefined();
  });
});

describe("any number of stages", () => {
  test.each([0, 1, 2, 3, 5, 9])("%i of them", (n) => {
    const stages = Array.from({ length: n }, (_, k) => ({ name: `S${k}`, flow: rows(40 + k, 80 + k, 110 + k) }));
    const { stages: seen, comparisons } = figuresOf({ stages });
    expect(seen.map(({ name }) => name)).toEqual(stages.map(({ name }) => name));
    expect(comparisons).toHaveLength(n < 2 ? 0 : n === 2 ? 1 : n);
    if (n > 2) expect(comparisons.at(-1)).toMatchObject({ from: { stage: "S0" }, to: { stage: `S${n - 1}` } });
  });
});

describe("any number of valves and ports", () => {
  const port = (valves: number) =>
    describedPort({ valves, valve: 30, stem: 6, throat: 26, seatWidth: 1.2, pinch: 900 });
  test.each([1, 2, 3])("%i valves on one port multiply its areas and divide its coefficients", (n) => {
    const of = (valves: number) =>
      figuresOf({ lifts: "mm", stages: [{ intake: port(valves), flow: [[5, 60]] }] }).stages[0]!.intake!;
    const [one, many] = [of(1).readings[0]!, of(n).readings[0]!];
    expect(of(n).valves).toBe(n);
    for (const key of ["curtain_area_m2", "minimum_area_m2"] as const) expect(many[key]! / one[key]!).toBeCloseTo(n, 9);
    for (const key of ["curtain_coefficient", "discharge_coefficient", "valve_coefficient"] as const)
      expect(one[key]! / many[key]!).toBeCloseTo(n, 9);
    expect(many.pinch_velocity_m_s).toBeCloseTo(one.pinch_velocity_m_s!, 9);
    expect(of(1).flow_per_valve_area_m_s! / of(n).flow_per_valve_area_m_s!).toBeCloseTo(n, 9);
  });
  test("ports that feed one cylinder share its air: gas speed and Mach index halve, power doubles", () => {
    const engine = {
      cylinders: 4,
      bore: millimetres(90),
      stroke: millimetres(80),
      rodLength: millimetres(140),
      rpm: { from: rpm(3000), to: rpm(3000) },
      cams: { intake: { netLift: millimetres(5) } },
    };
    const of = (ports: number) =>
      figuresOf({
        lifts: "mm",
        engine,
        report: { powerPerFlow: 4e5 as WattsPerFlow },
        stages: [{ intake: { ...port(1), ports }, flow: [[5, 60]] }],
      }).stages[0]!.engine!;
    const [one, two] = [of(1), of(2)];
    expect(two.pinch_limit_rpm! / one.pinch_limit_rpm!).toBeCloseTo(2, 9);
    expect(one.pinch_velocity[0]!.velocity_m_s / two.pinch_velocity[0]!.velocity_m_s).toBeCloseTo(2, 9);
    expect(one.inlet_mach_index[0]!.z / two.inlet_mach_index[0]!.z).toBeCloseTo(2, 9);
    expect(two.z_limit_rpm! / one.z_limit_rpm!).toBeCloseTo(2, 9);
    expect(two.supported_power_W! / one.supported_power_W!).toBeCloseTo(2, 9);
    expect(two.mean_piston_speed).toEqual(one.mean_piston_speed);
  });
  test("unlike valves are summed, and the number is told", () => {
    const unlike = {
      ...port(1),
      valves: [
        { head: metres(0.03), stem: metres(0.006) },
        { head: metres(0.034), stem: metres(0.006) },
      ],
    };
    const { intake } = figuresOf({ lifts: "mm", stages: [{ intake: unlike, flow: [[5, 60]] }] }).stages[0]!;
    expect(intake!.valves).toBe(2);
    expect(intake!.readings[0]!.curtain_area_m2).toBeCloseTo(Math.PI * 0.064 * 0.005, 12);
    expect(intake!.pinch_to_valve_area).toBeCloseTo(9e-4 / ((Math.PI / 4) * (0.03 ** 2 + 0.034 ** 2)), 9);
  });
});

describe("any engine, as far as it is stated", () => {
  const flowed: Sketch = { lifts: "mm", stages: [{ ...inclined[0] }] };
  const of = (engine: Sketch["engine"]) => figuresOf({ ...flowed, engine }).stages[0]!.engine!;
  test("nothing stated, nothing computed", () => {
    expect(figuresOf(flowed).stages[0]!.engine).toBeUndefined();
    expect(of({})).toEqual({ pinch_velocity: [], inlet_mach_index: [], mean_piston_speed: [] });
  });
  test("without a rod length there is no gas speed, but a mean piston speed", () => {
    const engine = of({ bore: millimetres(90), stroke: millimetres(80), rpm: { from: rpm(3000), to: rpm(3250) } });
    expect(engine.pinch_limit_rpm).toBeUndefined();
    expect(engine.mean_piston_speed).toEqual([
      { rpm: 3000, velocity_m_s: expect.closeTo(8, 9) },
      { rpm: 3250, velocity_m_s: expect.closeTo(26 / 3, 9) },
    ]);
  });
  test("without speeds there are limits, but no tables", () => {
    const engine = of({ bore: millimetres(90), stroke: millimetres(80), rodLength: millimetres(140) });
    expect(engine.pinch_limit_rpm).toBeGreaterThan(0);
    expect(engine.pinch_velocity).toEqual([]);
  });
});

describe("other heads", () => {
  const engine = {
    bore: inches(3.4),
    stroke: inches(3),
    rodLength: inches(5.4),
    rpm: { from: rpm(3000), to: rpm(4000) },
  };
  const other = { label: "Standard valves", stage: { name: "Finished", intake: {}, flow: rows(38, 75, 100) } };
  const figures = figuresOf({
    engine,
    bench: { repeatability: half(0.01) },
    stages: [{ name: "Finished", intake: {}, flow: rows(44, 88, 120) }],
    compared: [other],
  });
  test("are there to be drawn, under their label, without this job's engine", () => {
    expect(figures.others).toHaveLength(1);
    const [head] = figures.others!;
    expect(head).toMatchObject({ label: "Standard valves", name: "Finished" });
    expect(head!.intake!.readings.map((one) => one.flow_m3_s / CFM)).toEqual([
      expect.closeTo(38, 9),
      expect.closeTo(75, 9),
      expect.closeTo(100, 9),
    ]);
    expect(head!.intake!.curve.length).toBeGreaterThan(50);
    expect(head!.intake!.mean_flow).toMatchObject({ from_lift_m: figures.stages[0]!.intake!.mean_flow!.from_lift_m });
    expect(head).not.toHaveProperty("engine");
    expect(figures.stages[0]).toHaveProperty("engine");
  });
  test("and this head is compared as clearly higher or lower", () => {
    expect(figures.comparisons[0]).toMatchObject({
      from: { label: "Standard valves" },
      mean_change_verdict: "clearly higher",
    });
    expect(figuresOf({ stages: [{ flow: rows(40, 80) }] })).not.toHaveProperty("others");
  });
});

describe("what was left out", () => {
  test("is told once a lift, with a reason where one was typed, whichever run comes first", () => {
    const run = (cylinder: number, third: string) => ({
      cylinder,
      rows: [
        [0.1, 40],
        [0.2, 80],
        [0.3, third],
      ] as Row[],
    });
    const of = (order: readonly ReturnType<typeof run>[]) =>
      figuresOf({ stages: [{ intake: {}, runs: order }] }).stages[0]!.intake!.left_out;
    const [one, two, three] = [run(1, "~118"), run(2, "-"), run(3, "-")];
    const expected = [
      { lift_m: expect.closeTo(0.3 * 0.0254, 9), kind: "missing" },
      {
        lift_m: expect.closeTo(0.3 * 0.0254, 9),
        kind: "struck out",
        cylinder: 1,
        value_m3_s: expect.closeTo(cfm(118), 9),
      },
    ];
    expect(of([one, two, three])).toEqual(expected);
    expect(of([three, two, one])).toEqual(expected);
  });
});

test("a pinch is a section: sharp-edged areas and gas speeds follow it, coefficients do not", () => {
  const of = (pinch: number) =>
    figuresOf({
      lifts: "mm",
      stages: [{ intake: { pinch: { area: squareMetres(pinch), count: 1 } }, flow: [[5, 60]] }],
    }).stages[0]!.intake!;
  const [small, large] = [of(0.0008), of(0.001)];
  expect(small.pinch_share_of_ideal! / large.pinch_share_of_ideal!).toBeCloseTo(1.25, 9);
  expect(small.readings[0]!.curtain_coefficient).toBe(large.readings[0]!.curtain_coefficient);
});
