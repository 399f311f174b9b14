import { describe, expect, test } from "vitest";
import { idealFlowPerArea } from "../../../src/figures/air/ideal-flow.ts";
import { checkEachRule, warningFigure } from "../../../src/figures/checks/check-figures.ts";
import { computeFigures } from "../../../src/figures/compute-figures.ts";
import type { Model } from "../../../src/model/model.ts";
import {
  type Cell,
  CFM,
  cfm,
  describedPort,
  inchesOfWater,
  millimetres,
  modelOf,
  type Row,
  type Sketch,
  type StageSketch,
} from "../model-fixture.ts";

const told = (model: Model) => {
  const { errors, warnings } = checkEachRule(model, computeFigures(model));
  return [...errors, ...warnings].map((one) => ({ ...one, message: one.message.replaceAll("\u00a0", " ") }));
};
const find = (sketch: Sketch, code: string) =>
  told(modelOf({ lifts: "mm", ...sketch })).filter((one) => one.code === `figures/${code}`);
const port = describedPort({ valve: 44, stem: 8, throat: 37.5, seatWidth: 1.5 });
const one = (flow: readonly Row[], more: StageSketch = {}): Sketch => ({ stages: [{ intake: port, flow, ...more }] });
const ideal = idealFlowPerArea("intake", inchesOfWater(28), modelOf({}).reference.air);
/** cfm that gives a coefficient on the curtain of a 44 mm valve. */
const onCurtain = (coefficient: number, lift: number) => (coefficient * Math.PI * 0.044 * (lift / 1000) * ideal) / CFM;
const sweep = (coefficients: readonly (number | string)[], from = 2): Row[] =>
  coefficients.map((one, k): Row => {
    const flow = onCurtain(Number.parseFloat(`${one}`), from + k);
    return [from + k, typeof one === "string" ? `${flow}?` : flow];
  });

describe("a step that lasts", () => {
  const steps = (...given: Parameters<typeof sweep>) => find(one(sweep(...given)), "lasting-step").length;
  test("is told by four readings, and with a doubtful one between them", () => {
    expect([steps([0.6, 0.6, 0.7, 0.7]), steps([0.6, 0.6, 0.7])]).toEqual([1, 0]);
    expect(steps([0.6, 0.6, "0.6", 0.7, 0.7])).toBe(1);
  });
  test("and a bend is none, up or down", () => {
    expect([steps([0.4, 0.5, 0.5, 0.4]), steps([0.7, 0.6, 0.6, 0.7])]).toEqual([0, 0]);
  });
});

describe("a reading off its trend", () => {
  /** 21 cfm a millimetre, but for what was typed at one of the lifts. */
  const line = (lifts: readonly number[], at: number, typed: Cell): Row[] =>
    lifts.map((lift) => [lift, lift === at ? typed : 21 * lift]);
  const hints = (rows: readonly Row[], more: StageSketch = {}) =>
    find(one(rows, more), "off-trend").map(({ hint }) => hint!.replaceAll("\u00a0", " "));
  const AGAIN = "misread, mistyped, or a lift set wrong: measure it again";
  test("is named at the first lift too where a slip explains it", () => {
    expect(hints(line([2, 3, 4, 5], 2, "4.2"))).toEqual(["did you mean 42?"]);
    expect(hints(line([2, 3, 4, 5], 2, 39))).toEqual([]);
    expect(hints(line([2, 3, 4, 5], 5, "150.0"))).toEqual(["did you mean 105.0?"]);
  });
  test("where its neighbours are near, up to 0.13 of the valve between them, else only with a slip", () => {
    const between = (apart: number) => hints(line([2, 4, 2 + apart, 2 * apart, 3 * apart], 4, 90));
    // 0.13 · 44 mm is 5.72 mm.
    expect([between(5.7), between(5.75)]).toEqual([[AGAIN], []]);
  });
  test("without a valve a quarter of it is taken for the highest lift", () => {
    const between = (from: number) =>
      find({ stages: [{ flow: line([from, 4.1, 6.2, 8], 4.1, 90.7) }] }, "off-trend").length;
    // 0.13 · 4 · 8 mm is 4.16 mm.
    expect([between(2.06), between(2.02)]).toEqual([1, 0]);
  });
  test("a slip is one of the digits that were typed", () => {
    const small = (typed: number, of: number) =>
      hints([1, 2, 3, 4].map((lift): Row => [lift, lift === 2 ? typed : (of * lift) / 2]));
    expect(small(1.9, 9.1)).toEqual(["did you mean 9.1?"]);
    // 1.1 is no slip for 1.01, which nobody could have typed to a tenth.
    expect(small(1.1, 1.01)).toEqual([AGAIN]);
    const whole = (typed: string) =>
      hints([1, 2, 3, 4].map((lift): Row => [lift, lift === 2 ? typed : (10.9 * lift) / 2]));
    expect([whole("19.0"), whole("19")]).toEqual([["did you mean 10.9?"], [AGAIN]]);
  });
  test("no flow at all is no reading of a trend", () => {
    expect(
      hints([
        [1, 0],
        [2, 42],
        [3, 63],
        [4, 84],
      ]),
    ).toEqual([]);
    expect(
      hints([
        [1, 21],
        [2, 0],
        [3, 63],
        [4, 84],
      ]),
    ).toEqual([]);
  });
});

describe("places", () => {
  const start = (sketch: Sketch, code: string) => find(sketch, code).map(({ at }) => at?.start);
  test("of two readings at one lift the first is pointed at", () => {
    expect(
      start(
        one([
          [4, 300],
          [4, 300],
        ]),
        "curtain-over-ideal",
      ),
    ).toEqual([100]);
    expect(
      start(
        one([
          [2, 42],
          [3, 63],
          [4, "8.4"],
          [4, "8.4"],
          [5, 105],
        ]),
        "off-trend",
      ),
    ).toEqual([2100]);
    expect(
      start(
        {
          stages: [
            {
              flow: [
                [4, 100, 40],
                [4, 100, 40],
              ],
            },
          ],
        },
        "exhaust-share",
      ),
    ).toEqual([200]);
  });
  test("a reading below the leakage is named with both flows, where it was typed", () => {
    const bench = { leakage: { intake: cfm(85.1), testPressure: inchesOfWater(28) } };
    const [found] = find(
      {
        bench,
        ...one([
          [3, 90],
          [4, 85],
        ]),
      },
      "below-leakage",
    );
    expect(found).toMatchObject({
      message: "Stage 1, intake at 4.00 mm: 85.0 cfm is less than the leakage of 85.1 cfm",
      at: { start: 1100 },
    });
  });
});

describe("near misses", () => {
  test("of several low shares of the intake the lowest is named", () => {
    const flow = [48, 45, 49].map((share, k): Row => [4 + k, 100, share]);
    expect(find({ stages: [{ flow }] }, "exhaust-share").map(({ message }) => message)).toEqual([
      "Stage 1 at 5.00 mm: the exhaust flows 0.45 of the intake, outside 0.50–1.10",
    ]);
  });
  test("metal is looked for in the stage before, not the first, and not where a stage measures another again", () => {
    const stage = (throat: number, more: StageSketch = {}) => ({
      intake: describedPort({ valve: 50, stem: 8, throat, seatWidth: 1.5 }),
      ...more,
    });
    const grown = (...stages: readonly StageSketch[]) => find({ stages }, "grown-metal").length;
    expect(grown(stage(43), stage(44), stage(43.5))).toBe(1);
    expect(grown(stage(44), stage(43.5, { repeats: "Stage 1" }))).toBe(0);
    expect(grown(stage(44), stage(43.5, { repeats: "Stage 1" }), stage(44))).toBe(0);
    expect(grown({ chambers: [50] }, { chambers: [48] })).toBe(1);
    // A side that one of them lacks is compared with none.
    expect([grown({}, stage(43)), grown(stage(43), {})]).toEqual([0, 0]);
  });
  test("sweeps of which one passed nothing, or that were not read, are no sweeps apart or pasted", () => {
    const runs = (...all: readonly (readonly Row[])[]) => ({
      stages: [{ runs: all.map((rows, k) => ({ mount: k + 1, rows })) }],
    });
    expect(
      find(
        runs(
          [
            [4, 0],
            [6, 0],
          ],
          [
            [4, 85],
            [6, 121],
          ],
        ),
        "sweeps-apart",
      ),
    ).toEqual([]);
    const missing: Row[] = [
      [4, "-"],
      [6, "-"],
      [8, "-"],
    ];
    expect(find({ stages: [{ flow: missing }, { flow: missing }] }, "pasted-twice")).toEqual([]);
  });
  test("two sweeps lie apart by a size, and the later of two pasted ones is named, at the same lifts", () => {
    const runs = (...all: readonly (readonly Row[])[]) => ({
      stages: [{ runs: all.map((rows, k) => ({ mount: k + 1, rows })) }],
    });
    const apart = runs(
      [
        [4, 100],
        [6, 200],
      ],
      [
        [4, 95],
        [6, 190],
      ],
    );
    expect(find(apart, "sweeps-apart").map(({ message }) => message)).toEqual([
      "Stage 1, intake, cylinder 1: two sweeps lie 5.0 % apart",
    ]);
    const rows = (by = 0): Row[] => [
      [2 + by, 42],
      [4 + by, 85],
      [6 + by, 121],
    ];
    const pasted = (...flows: readonly (readonly Row[])[]) =>
      find({ stages: flows.map((flow) => ({ flow })) }, "pasted-twice").map(({ message }) => message.slice(0, 7));
    expect(pasted(rows(), rows())).toEqual(["Stage 2"]);
    expect(pasted(rows(), rows(0.5))).toEqual([]);
    expect(pasted(rows(), rows(), rows())).toEqual(["Stage 2", "Stage 3", "Stage 3"]);
  });
  test("a bore that only the valves' layout states is compared with the fixture", () => {
    const model = modelOf({ lifts: "mm", bench: { boreFixture: millimetres(95) }, stages: [{ flow: [[4, 85]] }] });
    const layout = { bore: millimetres(90), intake: [], exhaust: [] };
    const codes = (more: object) =>
      told({ ...model, stages: [{ ...model.stages[0]!, ...more }] }).map(({ code }) => code);
    expect([codes({}), codes({ layout })]).toEqual([[], ["figures/fixture-off-bore"]]);
    // A set has the fixture that it was flowed with, whatever its stage says.
    const sets = [{ bench: { boreFixture: millimetres(90) }, runs: [{ rows: [[4, 85]] as Row[] }] }];
    const engine = { bore: millimetres(90) };
    const bench = { boreFixture: millimetres(95) };
    expect(find({ bench, engine, stages: [{ sets }] }, "fixture-off-bore")).toEqual([]);
    expect(find({ bench, engine, stages: [{}] }, "fixture-off-bore")).toHaveLength(1);
  });
  test("a coefficient above 1 beyond 0.03 of the valve is refused, any other odd one is told", () => {
    const at = (coefficient: number, share: number) => {
      const lift = share * 44;
      return told(modelOf({ lifts: "mm", ...one([[lift, onCurtain(coefficient, lift)]]) }))
        .map(({ code }) => code)
        .filter((code) => code.includes("curtain"));
    };
    expect([at(0.95, 0.1), at(1.1, 0.1), at(1.1, 0.02), at(0.8, 0.1)]).toEqual([
      ["figures/curtain-coefficient"],
      ["figures/curtain-over-ideal"],
      ["figures/curtain-coefficient"],
      [],
    ]);
  });
  test("what is attached and a pipe of which one size is known are conditions of a set", () => {
    const set = (bench: object) => ({ name: "with", bench, runs: [{ rows: [[4, 85, 60]] as Row[] }] });
    const conditions = (bench: object) =>
      computeFigures(
        modelOf({ lifts: "mm", stages: [{ sets: [{ runs: [{ rows: [[4, 85, 60]] }] }, set(bench)] }] }),
      ).stages[0]!.sets[0]!.conditions.map((text) => text.replaceAll("\u00a0", " "));
    expect(conditions({ attached: { intake: "manifold" } })).toEqual(["on the intake manifold"]);
    expect(conditions({ attached: { exhaust: "header" } })).toEqual(["on the exhaust header"]);
    expect(conditions({ exhaustPipe: { diameter: millimetres(45) } })).toEqual(["exhaust pipe 45 mm × ?"]);
    expect(conditions({ exhaustPipe: { length: millimetres(100) } })).toEqual(["exhaust pipe ? × 100 mm"]);
    const leakage = { intake: cfm(1), testPressure: inchesOfWater(28) };
    expect(conditions({ leakage })).toEqual(["leakage taken off"]);
  });
  test("a leakage is judged by readings from which it was taken off", () => {
    const leakage = { intake: cfm(3), testPressure: inchesOfWater(28) };
    const runs = [{ bench: { leakage }, rows: [[4, 85]] as Row[] }, { rows: [[3, 60]] as Row[] }];
    expect(find({ stages: [{ runs }] }, "leakage").map(({ message }) => message)).toEqual([
      "Stage 1, intake: a leakage of 3.0 cfm is more than 3 % of the lowest reading, 85.0 cfm at 4.00 mm",
    ]);
  });
  test("columns swapped in one stage are told of the pair, and nothing is compared", () => {
    const [intake, exhaust] = [
      [40, 80, 110, 130],
      [32, 60, 80, 92],
    ];
    const stage = (a: readonly number[], b: readonly number[]) => ({
      flow: a.map((flow, k): Row => [2 * k + 2, flow, b[k]]),
    });
    const sketch = { stages: [stage(intake!, exhaust!), stage(exhaust!, intake!)] };
    expect(find(sketch, "columns-swapped")).toHaveLength(1);
    const { comparisons } = computeFigures(modelOf({ lifts: "mm", ...sketch }));
    expect(comparisons.map(({ not_compared, changes }) => [not_compared, changes])).toEqual(
      Array(2).fill(["columns swapped", []]),
    );
  });
});

describe("which of several", () => {
  test("a reading of a set that does not lead is named with its set", () => {
    const sets = [undefined, "pipe"].map((name) => ({
      ...(name && { name }),
      runs: [{ rows: [[4, onCurtain(0.95, 4)]] as Row[] }],
    }));
    const said = find({ stages: [{ intake: port, sets }] }, "curtain-coefficient").map(
      ({ message }) => message.split(" at ")[0],
    );
    expect(said).toEqual(["Stage 1, intake", "Stage 1, pipe, intake"]);
  });
  test("a stage that measures another again is not judged by its sizes again", () => {
    const stage = { intake: describedPort({ valve: 50, stem: 8, throat: 39, seatWidth: 1.5 }) };
    expect(find({ stages: [stage, { ...stage, repeats: "Stage 1" }] }, "throat-share")).toHaveLength(1);
  });
  test("swapped columns are pointed at where the exhaust was first read", () => {
    const valve = (head: number) => ({ valves: [{ head: millimetres(head) }] });
    const flow = [2, 4, 6].map((lift): Row => [lift, 40 * lift, 42 * lift]);
    const [found] = find({ stages: [{ intake: valve(44), exhaust: valve(38), flow }] }, "columns-swapped");
    expect(found!.at?.start).toBe(200);
  });
  test("of two stages that were measured again the further one is the floor", () => {
    const rows = (by: number): Row[] => [
      [4, 100 * by],
      [8, 150 * by],
    ];
    const again = (by: number) => ({ repeats: "A", flow: rows(by) });
    const stages = [
      { name: "A", flow: rows(1) },
      { ...again(1.02), name: "B" },
      { ...again(1.01), name: "C" },
      { name: "D", flow: rows(1.1) },
    ];
    expect(computeFigures(modelOf({ lifts: "mm", stages })).comparisons[0]!.floor_ratio).toBeCloseTo(0.02, 9);
  });
  test("a mean without the doubtful reading of one port is marked as partial", () => {
    const runs = [
      {
        rows: [
          [4, 80],
          [5, 95],
          [6, 110],
          [7, 120],
        ] as Row[],
      },
      {
        cylinder: 2,
        rows: [
          [4, "70?"],
          [5, 90],
          [6, 100],
          [7, 110],
        ] as Row[],
      },
    ];
    const { readings } = computeFigures(modelOf({ lifts: "mm", stages: [{ runs }] })).stages[0]!.intake!;
    expect(readings.map(({ doubtful, partial }) => [doubtful, partial])).toEqual([
      [undefined, true],
      ...Array(3).fill([undefined, undefined]),
    ]);
  });
  test("a set has the sides that any of its runs was read on", () => {
    const runs = [{ rows: [[4, 85]] as Row[] }, { mount: 2, rows: [[4, undefined, 60]] as Row[] }];
    const sets = [{ runs }, { name: "pipe", runs }];
    const [stage] = computeFigures(modelOf({ lifts: "mm", stages: [{ sets }] })).stages;
    expect([stage!.sets[0]!.intake!.readings.length, stage!.sets[0]!.exhaust!.readings.length]).toEqual([1, 1]);
  });
  test("one reading has a ± between it and the shut valve", () => {
    const bench = { repeatability: { kind: "expanded", value: 0.01 } } as never;
    const engine = { cams: { intake: { netLift: millimetres(3) } } };
    const { compared } = computeFigures(
      modelOf({ lifts: "mm", bench, engine, stages: [{ intake: {}, flow: [[4, 85]] }] }),
    ).stages[0]!.intake!;
    expect(compared.find(({ at }) => at === "cam")!.uncertainty_m3_s).toBeGreaterThan(0);
  });
  test("a warning without a hint is its message alone", () => {
    expect(warningFigure({ severity: "warning", code: "figures/x", message: "odd" }, new Map())).toEqual({
      code: "figures/x",
      text: "odd",
    });
  });
});

describe("what was flowed, and of how many", () => {
  const figures = (sketch: Sketch) => computeFigures(modelOf({ lifts: "mm", ...sketch })).stages;
  test("cylinders are those of the heads that are listed, else of the engine, less by ports that feed several", () => {
    const of = (more: Sketch, feeds = 1) =>
      figures({ stages: [{ intake: { feeds }, flow: [[4, 85]] }], ...more })[0]!.intake!.flowed.of;
    const heads = (...cylinders: readonly (readonly number[])[]) => ({
      text: { heads: cylinders.map((all, k) => ({ id: `${k}`, cylinders: all })) },
    });
    expect([of({}), of({ engine: { cylinders: 6 } }), of({ engine: { cylinders: 6 } }, 2)]).toEqual([undefined, 6, 3]);
    expect([
      of({ ...heads([1]), engine: { cylinders: 6 } }),
      of({ ...heads([1, 2, 3], [4]), engine: { cylinders: 8 } }),
    ]).toEqual([1, 4]);
  });
  test("a side is known by any run that was read on it, and a single set has its name", () => {
    const runs = [{ rows: [[4, 85]] as Row[] }, { mount: 2, rows: [[4, undefined, 60]] as Row[] }];
    const [stage] = figures({ stages: [{ runs }] });
    expect([stage!.intake!.readings.length, stage!.exhaust!.readings.length, stage!.set]).toEqual([1, 1, "bare"]);
  });
  test("named lifts are those that all stages were read at, where they share any", () => {
    const near = (lifts: readonly number[]) => ({ intake: {}, flow: lifts.map((lift): Row => [lift, 10 * lift]) });
    const low = (...stages: readonly StageSketch[]) =>
      figures({ stages }).map(({ intake }) => intake!.compared.find(({ at }) => at === "low")!.lift_m * 1000);
    // 0.10 of 44 mm is 4.4 mm.
    for (const lift of low(near([4, 8, 11]), near([4, 4.4, 8, 11]))) expect(lift).toBeCloseTo(4, 9);
  });
  test("a rod no longer than the crank has no gas speed, and stages come by their valves' seats", () => {
    const engine = (rod: number) => ({
      bore: millimetres(90),
      stroke: millimetres(80),
      rodLength: millimetres(rod),
      cams: {},
    });
    const speeds = (rod: number) =>
      figures({
        engine: engine(rod),
        stages: [{ intake: describedPort({ valve: 44, stem: 8, throat: 37.5, seatWidth: 1.5, pinch: 900 }) }],
      })[0]!.engine!;
    expect([speeds(39), speeds(40)]).toEqual(
      Array(2).fill({ pinch_velocity: [], inlet_mach_index: [], mean_piston_speed: [] }),
    );
    expect(speeds(41).pinch_limit_rpm).toBeGreaterThan(0);
    const stages = figures(one([1, 4, 12].map((lift): Row => [lift, 20 * lift])))[0]!.intake!.readings;
    expect(stages.map(({ minimum_area_stage }) => minimum_area_stage)).toEqual([1, 2, 3]);
  });
  test("what was left out is told in the order of lifts, a reason before none, whichever run it stood in", () => {
    const model = (order: readonly number[]) => {
      const base = modelOf({
        lifts: "mm",
        stages: [
          {
            flow: [
              [4, 85],
              [6, "~99"],
              [6, "~98"],
              [8, "-"],
              [8, "-"],
            ],
          },
        ],
      });
      const reasons = [undefined, undefined, "leak", undefined, "smudged"];
      const [stage] = base.stages;
      const [set] = stage!.sets;
      const runs = order.map((k) => {
        const { reason: _, ...reading } = { reason: undefined, ...set!.runs[0]!.readings.intake[k]! };
        return {
          ...set!.runs[0]!,
          readings: { intake: [{ ...reading, ...(reasons[k] && { reason: reasons[k] }) }], exhaust: [] },
        };
      });
      return { ...base, stages: [{ ...stage!, sets: [{ ...set!, runs }] }] } as Model;
    };
    for (const order of [
      [0, 1, 2, 3, 4],
      [4, 3, 2, 1, 0],
      [3, 4, 1, 2, 0],
    ])
      expect(
        computeFigures(model(order)).stages[0]!.intake!.left_out.map(({ kind, reason, value_m3_s }) => [
          kind,
          reason,
          value_m3_s && Math.round(value_m3_s / CFM),
        ]),
      ).toEqual([
        ["struck out", "leak", 98],
        ["struck out", undefined, 99],
        ["missing", "smudged", undefined],
      ]);
  });
});
