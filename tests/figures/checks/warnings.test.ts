import { describe, expect, test } from "vitest";
import { idealFlowPerArea } from "../../../src/figures/air/ideal-flow.ts";
import { checkEachRule, warningFigure } from "../../../src/figures/checks/check-figures.ts";
import { computeFigures } from "../../../src/figures/compute-figures.ts";
import { cubicMetres, ratio, squareMetres } from "../../../src/units/quantity.ts";
import { demoHeads, fourValve, inclined, iron, single } from "../demo-heads.ts";
import {
  CFM,
  cfm,
  describedPort,
  inches,
  inchesOfWater,
  millimetres,
  modelOf,
  type Row,
  rowsOf,
  type Sketch,
  type StageSketch,
} from "../model-fixture.ts";

function check(sketch: Sketch) {
  const model = modelOf(sketch);
  return checkEachRule(model, computeFigures(model));
}
const codes = (sketch: Sketch) => check(sketch).warnings.map((warning) => warning.code.replace("figures/", ""));
const find = (sketch: Sketch, code: string) =>
  check(sketch).warnings.filter((warning) => warning.code === `figures/${code}`);

/** A rule speaks of one job and not of its near miss. */
function rule(code: string, raises: Sketch, nearMiss: Sketch) {
  test(code, () => {
    expect(codes(raises)).toContain(code);
    expect(codes(nearMiss)).not.toContain(code);
  });
}

const inclinedPort = inclined[0].intake!;
const ideal = idealFlowPerArea("intake", inchesOfWater(28), modelOf({}).reference.air);
/** cfm that gives a coefficient on the curtain of a 44 mm valve. */
const onCurtain = (coefficient: number, lift: number) => (coefficient * Math.PI * 0.044 * (lift / 1000) * ideal) / CFM;
const mm = (rows: readonly Row[], changes: StageSketch = {}): Sketch => ({
  lifts: "mm",
  stages: [{ intake: inclinedPort, flow: rows, ...changes }],
});
const withCell = (rows: readonly Row[], lift: number, cell: number | string, column = 1): Row[] =>
  rows.map((row) => (row[0] === lift ? (row.map((old, k) => (k === column ? cell : old)) as unknown as Row) : row));

describe("plausible heads pass without a word", () => {
  test.each(demoHeads)("$name", ({ sketch }) => {
    expect(check(sketch)).toEqual({ errors: [], warnings: [] });
  });
  // Small irregularity of ± 0.4 % as benches show it; seeded.
  test.each(demoHeads)("$name, with small irregularity", ({ sketch }) => {
    let seed = 7;
    const noise = () => {
      seed = (seed * 16807) % 2147483647;
      return 1 + 0.008 * (seed / 2147483647 - 0.5);
    };
    for (let round = 0; round < 25; round++) {
      const stages = sketch.stages!.map((stage) => ({
        ...stage,
        flow: stage.flow!.map(
          (row) =>
            row.map((cell, k) => (k === 0 ? cell : Math.round((cell as number) * noise() * 10) / 10)) as unknown as Row,
        ),
      }));
      expect(codes({ ...sketch, stages })).toEqual([]);
    }
  });
  test("a flat spot and a curve that falls away are no mistakes", () => {
    const flat: Row[] = rowsOf("0.1 68, 0.2 134, 0.3 195, 0.4 236, 0.45 236.5, 0.5 249");
    const falls: Row[] = [
      [0.1, 60],
      [0.2, 120],
      [0.3, 180],
      [0.4, 228],
      [0.5, 262],
      [0.6, 268],
      [0.7, "254!"],
    ];
    const port = describedPort({ valve: 2.02 * 25.4, stem: 8, throat: 1.78 * 25.4, seatWidth: 1.5 });
    for (const flow of [flat, falls]) expect(codes({ stages: [{ intake: port, flow }] })).toEqual([]);
  });
});

describe("coefficients", () => {
  rule("curtain-coefficient", mm([[4, onCurtain(0.8801, 4)]]), mm([[4, onCurtain(0.88, 4)]]));
  test("above 1.00 beyond 0.03 lift ÷ diameter it is an error, at the reading", () => {
    const lift = 0.0301 * 44;
    const { errors, warnings } = check(mm([[lift, onCurtain(1.0001, lift)]]));
    expect(errors.map((error) => error.code)).toEqual(["figures/curtain-over-ideal"]);
    expect(errors[0]!.severity).toBe("error");
    expect(errors[0]!.at).toEqual({ file: "job.yaml", start: 100, end: 105 });
    expect(warnings.map((warning) => warning.code)).not.toContain("figures/curtain-coefficient");
    expect(check(mm([[lift, onCurtain(1, lift)]])).errors).toEqual([]);
  });
  test("below 0.03 lift ÷ diameter it warns only", () => {
    const { errors, warnings } = check(mm([[1.3, onCurtain(1.2, 1.3)]]));
    expect(errors).toEqual([]);
    expect(warnings.map((warning) => warning.code)).toContain("figures/curtain-coefficient");
  });
  test("a doubtful reading is not judged", () => expect(check(mm([[4, `${onCurtain(1.5, 4)}?`]])).errors).toEqual([]));

  const minimumAt = (lift: number) => {
    const figures = computeFigures(modelOf(mm([[lift, 100]])));
    return figures.stages[0]!.intake!.readings[0]!.minimum_area_m2!;
  };
  const onMinimum = (coefficient: number, lift: number) => (coefficient * minimumAt(lift) * ideal) / CFM;
  test.each([
    [0.1, 1.2],
    [0.13, 1.05],
    [0.16, 0.97],
    [0.25, 0.97],
  ])("on the minimum area at lift ÷ diameter %f: %f", (share, limit) => {
    const lift = share * 44;
    expect(codes(mm([[lift, onMinimum(limit + 0.0001, lift)]]))).toContain("minimum-area-coefficient");
    expect(codes(mm([[lift, onMinimum(limit, lift)]]))).not.toContain("minimum-area-coefficient");
  });
  test("the limits change at 0.12 and 0.15", () => {
    expect(codes(mm([[0.12 * 44 - 1e-6, onMinimum(1.1, 0.12 * 44)]]))).not.toContain("minimum-area-coefficient");
    expect(codes(mm([[0.12 * 44 + 1e-6, onMinimum(1.1, 0.12 * 44)]]))).toContain("minimum-area-coefficient");
    expect(codes(mm([[0.15 * 44 - 1e-6, onMinimum(1.0, 0.15 * 44)]]))).not.toContain("minimum-area-coefficient");
    expect(codes(mm([[0.15 * 44 + 1e-6, onMinimum(1.0, 0.15 * 44)]]))).toContain("minimum-area-coefficient");
  });
});

describe("zero flow", () => {
  // A straight start of 21 cfm a millimetre, moved along the lift by a dial set wrong.
  const moved = (by: number) =>
    mm([
      [1 + by, 21],
      [2 + by, 42],
      [3 + by, 63],
      [4 + by, 84],
    ]);
  const limit = 0.008 * 25.4;
  rule("zero-flow", moved(limit + 0.001), moved(limit - 0.001));
  rule("zero-flow", moved(-limit - 0.001), moved(-limit + 0.001));
  test("names the reading and a likely cause", () => {
    const [warning] = find(moved(0.5), "zero-flow");
    expect(warning!.message).toContain("intake at 1.50\u00a0mm");
    expect(warning!.hint).toContain("dial");
    expect(warning!.at).toBeDefined();
  });
  // Three readings of a bent start: flow is b·x − c·x² where x is the lift beyond the true zero, so its zero is known.
  const bent = (zero: number, b: number, c: number) =>
    find(mm([1, 2, 3].map((lift): Row => [lift, b * (lift - zero) - c * (lift - zero) ** 2])), "zero-flow").map(
      ({ hint }) => hint,
    );
  test("a bent start is judged by where its own curve meets zero", () => {
    const seat = "dial zeroed with the valve off its seat, or too much leakage taken off";
    const leak = "dial zero, or a leak that was not taken off";
    expect([bent(0.5, 40, 2), bent(0.5, 40, -4), bent(-0.5, 40, 2), bent(-0.5, 40, -4)]).toEqual([
      [seat],
      [seat],
      [leak],
      [leak],
    ]);
    // The line through the first two misses zero by 0.5 mm, the curve does not.
    expect([bent(0, 40, 6), bent(0, 40, -10), bent(0.19, 40, 6), bent(-0.19, 40, 6)]).toEqual([[], [], [], []]);
    expect([bent(0.22, 40, -8).length, bent(-0.22, 40, 6).length]).toEqual([1, 1]);
  });
  test("two readings alone are judged by their line, and not where the valve is open further than flow follows lift", () => {
    const two = (...rows: readonly Row[]) => find(mm(rows), "zero-flow").length;
    expect([two([1.5, 21], [2.5, 42]), two([1, 21], [2, 42]), two([1.5, 21])]).toEqual([1, 0, 0]);
    expect([two([4.72, 85], [5.72, 88]), two([4.73, 85], [5.73, 88])]).toEqual([1, 0]);
    expect(two([1, 42], [2, 42])).toBe(0);
  });
  test("a stock port that bends early in coarse steps is none", () => {
    const rows = iron[0].flow!.filter((row) => [0.1, 0.2, 0.3, 0.4].includes(row[0]));
    expect(codes({ stages: [{ ...iron[0], flow: rows }] })).not.toContain("zero-flow");
  });
});

describe("steps, slips and stuck valves", () => {
  const flat = (step: number) =>
    mm([2, 3, 4, 5, 6, 7].map((lift) => [lift, onCurtain(lift < 5 ? 0.6 : 0.6 + step, lift)] as Row));
  rule("lasting-step", flat(0.0601), flat(0.06));
  rule("lasting-step", flat(-0.0601), flat(-0.06));
  test("a lasting step says from where, how large, and which way", () => {
    const [up, down] = [flat(0.1), flat(-0.1)].map((sketch) => find(sketch, "lasting-step")[0]!);
    expect(up!.message).toMatch(/at 5\.00\u00a0mm: .* begins a step of 0\.10 /);
    expect([up!.hint, down!.hint].map((hint) => hint!.split(" ").at(-1))).toEqual(["up", "down"]);
    expect(up!.at).toMatchObject({ start: 3100 });
  });
  test("one bad reading is no lasting step", () => {
    const rows = [2, 3, 4, 5, 6, 7, 8].map((lift) => [lift, onCurtain(lift === 5 ? 0.75 : 0.6, lift)] as Row);
    expect(codes(mm(rows))).not.toContain("lasting-step");
    expect(codes(mm(rows))).toContain("off-trend");
  });

  const trend = (share: number) =>
    mm([2, 3, 4, 5, 6].map((lift) => [lift, onCurtain(0.6, lift) * (lift === 4 ? 1 + share : 1)] as Row));
  rule("off-trend", trend(0.0501), trend(0.05));
  rule("off-trend", trend(-0.0501), trend(-0.05));

  test.each([
    ["swapped digits", "112.0", "121.0"],
    ["a lost decimal", "1210", "121.0"],
    ["a decimal too many", "12.1", "121"],
  ])("proposes %s", (_, typed, meant) => {
    const [warning, ...more] = find(
      { lifts: "mm", stages: [{ ...inclined[0], flow: withCell(inclined[0].flow!, 6, typed) }] },
      "off-trend",
    );
    expect(warning!.message).toContain("intake at 6.00\u00a0mm");
    expect(warning!.hint).toBe(`did you mean ${meant}?`);
    expect(more).toEqual([]);
  });
  test("names a slip at the last lift only when a slip explains it", () => {
    const last = (cell: string) =>
      find({ lifts: "mm", stages: [{ ...inclined[0], flow: withCell(inclined[0].flow!, 12, cell) }] }, "off-trend");
    expect(last("16.2")[0]!.hint).toContain("162");
    expect(last("150")).toEqual([]);
  });
  test("three readings tell a trend, two do not", () => {
    const few = (...rows: readonly Row[]) => find(mm(rows), "off-trend").length;
    expect([few([4, 85], [5, "12.1"], [6, 121]), few([4, 85], [5, "12.1"])]).toEqual([1, 0]);
  });
  test("two slips are two findings, the worse first", () => {
    const rows = [2, 3, 4, 5, 6, 7, 8, 9, 10].map((lift): Row => {
      const flow = onCurtain(0.6, lift);
      return [lift, lift === 4 ? `${(flow / 10).toFixed(1)}` : lift === 8 ? flow * 1.2 : flow];
    });
    const found = find(mm(rows), "off-trend").map(({ message }) => message.replaceAll("\u00a0", " "));
    expect(found).toHaveLength(2);
    expect(find(mm(rows), "off-trend").map(({ at }) => at?.start)).toEqual([2100, 6100]);
    expect(found[0]).toMatch(/at 4\.00 mm: .* lies 90\.0 % below the trend/);
    expect(found[1]).toMatch(/at 8\.00 mm: .* lies 20\.0 % above the trend/);
  });
  test("proposes nothing that does not land", () => {
    const [warning] = find(
      { lifts: "mm", stages: [{ ...inclined[0], flow: withCell(inclined[0].flow!, 6, "133.3") }] },
      "off-trend",
    );
    expect(warning!.hint).not.toContain("did you mean");
  });

  const stuck = (lift: number) =>
    mm([
      [2, 42],
      [4, 85],
      [lift - 0.5, 110],
      [lift, 110],
      [12, 160],
    ]);
  rule("equal-neighbours", stuck(0.219 * 44), stuck(0.22 * 44));
});

describe("sides", () => {
  const swapped = (rows: readonly Row[]) => rows.map(([lift, intake, exhaust]) => [lift, exhaust, intake] as Row);
  rule(
    "columns-swapped",
    { lifts: "mm", stages: [{ ...inclined[0], flow: swapped(inclined[0].flow!) }] },
    {
      lifts: "mm",
      stages: [
        {
          ...inclined[0],
          intake: inclined[0].exhaust!,
          exhaust: inclined[0].intake!,
          flow: swapped(inclined[0].flow!),
        },
      ],
    },
  );
  const shared = (share: number): Sketch => ({
    lifts: "mm",
    stages: [
      {
        flow: [
          [4, 85, 85 * share],
          [6, 121, 90],
          [8, 146, 110],
        ],
      },
    ],
  });
  rule("exhaust-share", shared(1.101), shared(1.1));
  rule("exhaust-share", shared(0.499), shared(0.5));
  test("of several odd shares the one furthest out is named", () => {
    const flow: Row[] = rowsOf("4 100 45, 6 100 130, 8 100 48, 10 100 120");
    expect(find({ lifts: "mm", stages: [{ flow }] }, "exhaust-share").map(({ message }) => message)).toEqual([
      "Stage 1 at 6.00\u00a0mm: the exhaust flows 1.30 of the intake, outside 0.50–1.10",
    ]);
  });
  test("points at the exhaust's reading", () => {
    expect(find(shared(0.4), "exhaust-share")[0]!.at).toEqual({ file: "job.yaml", start: 200, end: 205 });
  });
});

describe("bench", () => {
  const leaking = (leak: number): Sketch => ({
    ...mm([
      [4, 85],
      [6, 121],
    ]),
    bench: { leakage: { intake: cfm(leak), testPressure: inchesOfWater(28) } },
  });
  rule("leakage", leaking(0.0301 * 85), leaking(0.03 * 85));
  test("leakage is judged by the lowest reading that is used, and says which", () => {
    const { bench } = leaking(2.5);
    const rows: Row[] = [
      [2, "-"],
      [3, "20?"],
      [4, "80!"],
      [6, 85],
    ];
    const [found, ...more] = find({ lifts: "mm", bench, stages: [{ flow: rows }] }, "leakage");
    expect(found!.message).toMatch(/^Stage 1, intake: .* the lowest reading, 80\u00a0cfm at 4\.00\u00a0mm$/);
    expect([found!.at?.start, more]).toEqual([2100, []]);
    expect(
      codes({
        lifts: "mm",
        bench,
        stages: [
          {
            flow: [
              [2, "-"],
              [3, "20?"],
            ],
          },
        ],
      }),
    ).not.toContain("leakage");
  });
  test("a reading below the leakage that is taken off it is refused, in another head too", () => {
    const errors = (sketch: Sketch) => {
      const model = modelOf(sketch);
      return checkEachRule(model, computeFigures(model)).errors.map(({ code }) => code);
    };
    expect(errors(leaking(85.1))).toEqual(["figures/below-leakage"]);
    expect(errors(leaking(85))).toEqual([]);
    const beside = leaking(85.1);
    const stage = { ...beside.stages![0]!, name: "Finished" };
    const other = {
      ...beside,
      stages: [
        {
          ...stage,
          runs: [
            {
              rows: [
                [4, 90],
                [6, 121],
              ] as Row[],
            },
          ],
        },
      ],
    };
    expect(errors({ ...other, compared: [{ label: "Other", stage }] })).toEqual(["figures/below-leakage"]);
  });
  const apart = (share: number, mount = 1): Sketch => ({
    lifts: "mm",
    stages: [
      {
        runs: [
          {
            rows: [
              [4, 85],
              [6, 121],
            ],
          },
          {
            mount,
            rows: [
              [4, 85 * (1 + share)],
              [6, 121 * (1 + share)],
            ],
          },
        ],
      },
    ],
  });
  rule("sweeps-apart", apart(0.0251), apart(0.025));
  rule("sweeps-apart", apart(0.0351, 2), apart(0.035, 2));
  test("sweeps that lie apart are told once, over the lifts that both have", () => {
    const sweeps = (second: readonly Row[]): Sketch => ({
      lifts: "mm",
      stages: [
        {
          runs: [
            {
              rows: rowsOf("4 85, 6 121, 8 150"),
            },
            { mount: 2, rows: second },
          ],
        },
      ],
    });
    const [found, ...more] = find(sweeps(rowsOf("4 89, 6 127, 10 10")), "sweeps-apart");
    // (89 + 127) ÷ (85 + 121) − 1.
    expect([found!.message.match(/[\d.]+\u00a0%/)![0], more]).toEqual(["4.9\u00a0%", []]);
    expect(found!.at).toMatchObject({ start: 100 });
    expect(codes(sweeps([[10, 160]]))).not.toContain("sweeps-apart");
  });
  test("sweeps of two cylinders may differ", () => {
    expect(
      codes({
        lifts: "mm",
        stages: [
          {
            runs: [
              {
                rows: [
                  [4, 85],
                  [6, 121],
                ],
              },
              {
                cylinder: 2,
                rows: [
                  [4, 95],
                  [6, 135],
                ],
              },
            ],
          },
        ],
      }),
    ).not.toContain("sweeps-apart");
  });
  const fixture = (share: number): Sketch => ({
    ...mm([[4, 85]]),
    bench: { boreFixture: millimetres(90 * share) },
    engine: { bore: millimetres(90) },
  });
  rule("fixture-off-bore", fixture(1.0301), fixture(1.03));
  rule("fixture-off-bore", fixture(0.9699), fixture(0.97));
  test("a fixture is over or under the bore, on the bench of a stage that was not flowed too", () => {
    expect(find(fixture(1.05), "fixture-off-bore")[0]!.message).toMatch(
      /is 5\.0\u00a0% over the bore of 90\.00\u00a0mm$/,
    );
    expect(find(fixture(0.95), "fixture-off-bore")[0]!.message).toMatch(/is 5\.0\u00a0% under the bore/);
    expect(codes({ ...fixture(1.05), stages: [{}] })).toEqual(["fixture-off-bore"]);
    const { engine: _, ...boreless } = fixture(1.05);
    expect(codes(boreless)).toEqual([]);
  });
  const plate = (after: number): Sketch => ({
    ...mm([[4, 85]]),
    bench: { checkPlate: { nominal: cfm(150), before: cfm(150), after: cfm(150 * after) } },
  });
  rule("check-plate", plate(1.0101), plate(1.01));
  rule("check-plate", { ...plate(1.02), stages: [{}] }, { ...plate(1), stages: [{}] });
  rule("check-plate", plate(0.9899), plate(0.99));
  test("beyond 2 % no verdict is given, at 2 % it is", () => {
    const two = (after: number) => {
      const bench = {
        repeatability: { kind: "expanded", value: ratio(0.005) } as const,
        checkPlate: { nominal: cfm(150), after: cfm(150 * after) },
      };
      return computeFigures(modelOf({ lifts: "mm", bench, stages: inclined })).comparisons[0]!;
    };
    expect(two(1.02)).toMatchObject({ mean_change_verdict: "clear gain" });
    expect(two(1.0201).mean_change_verdict).toBeUndefined();
    expect(two(1.0201).verdict_withheld).toBe("check plate");
    expect(two(1.0201).changes.some((change) => change.verdict?.startsWith("clear") === true)).toBe(false);
    expect(find(plate(1.0201), "check-plate")[0]!.message).toContain("no verdict");
    expect(find(plate(1.02), "check-plate")[0]!.message).toMatch(/^the check plate read 2\.0\u00a0% off$/);
  });
});

describe("pasted twice", () => {
  const rows: Row[] = rowsOf("2 42, 4 85, 6 121");
  const other: Row[] = rowsOf("2 42, 4 85, 6 121.1");
  test("is told once a pair, at the later of the two; twice one port in one stage is a repeat", () => {
    const found = find({ lifts: "mm", stages: [{ flow: rows }, { flow: other }, { flow: rows }] }, "pasted-twice");
    expect(found.map(({ message }) => message)).toEqual([
      "Stage 3, cylinder 1, intake: the same readings as Stage 1, cylinder 1, to the last digit",
    ]);
    expect(found[0]!.at).toMatchObject({ file: "job.yaml", start: 100 });
    expect(codes({ lifts: "mm", stages: [{ runs: [{ rows }, { mount: 2, rows }] }] })).not.toContain("pasted-twice");
    expect(codes({ lifts: "mm", stages: [{ flow: rows.slice(1) }, { flow: rows.slice(1) }] })).not.toContain(
      "pasted-twice",
    );
  });
  rule(
    "pasted-twice",
    { lifts: "mm", stages: [{ flow: rows }, { flow: rows }] },
    { lifts: "mm", stages: [{ flow: rows }, { flow: other }] },
  );
  rule(
    "pasted-twice",
    { lifts: "mm", stages: [{ runs: [{ rows }, { cylinder: 2, rows }] }] },
    { lifts: "mm", stages: [{ runs: [{ rows }, { cylinder: 2, rows: other }] }] },
  );
});

describe("dimensions", () => {
  const port = (changes: Partial<Parameters<typeof describedPort>[0]>) =>
    describedPort({
      valve: 50,
      stem: 8,
      throat: 43,
      seatWidth: 1.5,
      pinch: 1000,
      volume: 120,
      length: 100,
      ...changes,
    });
  const stage = (changes: Partial<Parameters<typeof describedPort>[0]>): Sketch => ({
    lifts: "mm",
    stages: [{ intake: port(changes) }],
  });
  rule("throat-share", stage({ throat: 46.01 }), stage({ throat: 46 }));
  rule("throat-share", stage({ throat: 39.99 }), stage({ throat: 40 }));
  rule("seat-width", stage({ seatWidth: 0.6349 }), stage({ seatWidth: 0.635 }));
  rule("seat-width", stage({ seatWidth: 3.0481 }), stage({ seatWidth: 3.048 }));
  rule("port-volume", stage({ volume: 155.1 }), stage({ volume: 155 }));
  rule("port-volume", stage({ volume: 97.9 }), stage({ volume: 98 }));
  const passing = (share: number): Sketch => ({
    lifts: "mm",
    stages: [{ intake: port({}), flow: [[12, (share * 0.001 * ideal) / CFM]] }],
  });
  rule("pinch-share", passing(0.9701), passing(0.97));
  test("a pinch that passes too much is never an error", () => expect(check(passing(1.4)).errors).toEqual([]));

  const worked = (changes: Partial<Parameters<typeof describedPort>[0]>, more: object = {}): Sketch => ({
    lifts: "mm",
    stages: [{ intake: port({}) }, { intake: { ...port(changes), ...more } }],
  });
  rule("grown-metal", worked({ throat: 42.7 }), worked({ throat: 42.79 }));
  rule("grown-metal", worked({ pinch: 989 }), worked({ pinch: 991 }));
  rule("grown-metal", worked({ volume: 111 }), worked({ volume: 111 }, { added: "filler" }));
  // 0.5 % of a diameter, 1 % of an area and of a volume.
  rule("grown-metal", worked({ throat: 42.7849 }), worked({ throat: 42.7851 }));
  rule("grown-metal", worked({ pinch: 989.99 }), worked({ pinch: 990.01 }));
  rule("grown-metal", worked({ volume: 118.79 }), worked({ volume: 118.81 }));
  rule(
    "grown-metal",
    { stages: [{ chambers: [50, 51] }, { chambers: [50, 49.98] }] },
    { stages: [{ chambers: [50, 51] }, { chambers: [50, 49.99] }] },
  );
  test("metal that grew is named, with both sizes", () => {
    const said = (sketch: Sketch) => find(sketch, "grown-metal").map(({ message }) => message);
    expect(said(worked({ throat: 42 }))).toEqual([
      "Stage 2, intake: the throat went from 43.00\u00a0mm to 42.00\u00a0mm, as if metal had grown",
    ]);
    expect(said(worked({ pinch: 900 }))[0]).toMatch(/the pinch went from 1000\u00a0mm² to 900\u00a0mm²/);
    expect(said(worked({ volume: 100 }))[0]).toMatch(/the port volume went from 120\.0\u00a0cc to 100\.0\u00a0cc/);
    expect(find(chambers(), "grown-metal")[0]!.hint).toContain("`deck: { cut: … }`");
    expect(find(worked({ throat: 42 }), "grown-metal")[0]!.hint).toContain("`added: filler`");
    expect(said(chambers())[0]).toMatch(/^Stage 2: the chamber went from 50\.0\u00a0cc to 48\.0\u00a0cc/);
  });
  test("a size that one stage lacks is compared with none", () => {
    const { pinch: _, ...bare } = port({});
    expect(codes({ lifts: "mm", stages: [{ intake: bare }, { intake: port({}) }] })).not.toContain("grown-metal");
    expect(codes({ lifts: "mm", stages: [{ intake: port({}) }, { intake: bare }] })).not.toContain("grown-metal");
    expect(codes({ stages: [{ chambers: [50] }, {}] })).not.toContain("grown-metal");
  });
  test("what was not measured again is not judged again, and what was is", () => {
    const small = { throat: millimetres(39) };
    const judged = (more: object) => codes({ lifts: "mm", stages: [{ intake: { ...port({}), ...small, ...more } }] });
    expect(judged({})).toContain("throat-share");
    expect(judged({ notRemeasured: ["throat"] })).toContain("throat-share");
    expect(judged({ notRemeasured: ["valve"] })).toContain("throat-share");
    expect(judged({ notRemeasured: ["throat", "valve"] })).not.toContain("throat-share");
    expect(judged({ stale: ["throat"] })).not.toContain("throat-share");
    const odd = (more: object) =>
      codes({ lifts: "mm", stages: [{ intake: { ...port({ volume: 160 }), ...more } }] }).includes("port-volume");
    expect(odd({})).toBe(true);
    expect(odd({ stale: ["port_volume"] })).toBe(false);
    expect(odd({ stale: ["port_length"] })).toBe(false);
    expect(odd({ notRemeasured: ["port_volume", "port_length"] })).toBe(true);
    expect(odd({ notRemeasured: ["port_volume", "port_length", "pinch"] })).toBe(false);
    const wide = (more: object) =>
      codes({ lifts: "mm", stages: [{ intake: { ...port({ seatWidth: 4 }), ...more } }] }).includes("seat-width");
    expect([wide({}), wide({ notRemeasured: ["seat"] })]).toEqual([true, false]);
  });
  test("a port without a valve, a throat, a volume, a pinch or a length is not judged by it", () => {
    const { throat, portVolume, pinch, portLength, seat, ...rest } = port({ throat: 39, volume: 160, seatWidth: 4 });
    const sizes = { throat, portVolume, pinch, portLength, seat };
    for (const lacking of Object.keys(sizes) as (keyof typeof sizes)[]) {
      const { [lacking]: _, ...has } = sizes;
      // The fixture's own port has a throat and a seat: a stage is made around them.
      const model = modelOf({ lifts: "mm", stages: [{}] });
      const stages = [{ ...model.stages[0]!, ports: { intake: { ...rest, ...has } } }];
      const whole = { ...model, stages } as typeof model;
      const said = checkEachRule(whole, computeFigures(whole)).warnings.map(({ code }) => code);
      expect(said.includes("figures/throat-share")).toBe(lacking !== "throat");
      expect(said.includes("figures/seat-width")).toBe(lacking !== "seat");
      expect(said.includes("figures/port-volume")).toBe(!["portVolume", "pinch", "portLength"].includes(lacking));
    }
  });
  rule("grown-metal", worked({ throat: 42 }), worked({ throat: 42, valve: 49 }));
  const chambers = (deckCut?: number): Sketch => ({
    stages: [{ chambers: [50, 50] }, { chambers: [48, 48], ...(deckCut === undefined ? {} : { deckCut }) }],
  });
  rule("grown-metal", chambers(), chambers(0.01));
  rule("chamber-spread", { stages: [{ chambers: [49.7, 50.3] }] }, { stages: [{ chambers: [49.75, 50.25] }] });
  test("chambers that were not measured again are not judged again", () => {
    const model = modelOf({ stages: [{ chambers: [49, 51] }] });
    const told = (chambersNotRemeasured: boolean) => {
      const whole = { ...model, stages: [{ ...model.stages[0]!, chambersNotRemeasured }] };
      return checkEachRule(whole, computeFigures(whole)).warnings.map(({ code }) => code);
    };
    expect([told(false), told(true)]).toEqual([["figures/chamber-spread"], []]);
  });
  test("chambers may differ as received", () => {
    expect(codes({ stages: [{ chambers: [48, 52] }, { chambers: [52, 52.1] }] })).not.toContain("chamber-spread");
  });
});

describe("assembly and engine", () => {
  const springs = (bind: number, seal: number): Sketch => ({
    engine: { cams: { intake: { netLift: inches(0.42) } } },
    stages: [{ name: "Finished" }],
    text: {
      springs: {
        installedHeight: inches(1.56),
        coilBind: inches(1.56 - 0.42 - bind),
        retainerToSeal: inches(0.42 + seal),
      },
    },
  });
  rule("spring-clearance", springs(0.0399, 0.1), springs(0.04, 0.04));
  rule("spring-clearance", springs(0.1, 0.0399), springs(0.1, 0.04));
  const squeeze = (compression: number): Sketch => ({
    engine: {
      bore: millimetres(90),
      stroke: millimetres(80),
      gasket: { kind: "volume", volume: cubicMetres(8e-6) },
      piston: { dish: cubicMetres(0), belowDeck: millimetres(0) },
    },
    stages: [{ chambers: [(Math.PI * 0.25 * 0.09 ** 2 * 0.08 * 1e6) / (compression - 1) - 8] }],
  });
  rule("compression", squeeze(15.01), squeeze(15));
  rule("compression", squeeze(5.99), squeeze(6));
  const cam = (lift: number): Sketch => ({
    lifts: "mm",
    engine: { cams: { intake: { netLift: millimetres(lift) } } },
    stages: inclined,
  });
  rule("beyond-readings", cam(12.01), cam(12));
  test("beyond the readings points at the last of them", () => {
    const sketch = { ...cam(13), stages: [{ ...inclined[0], exhaust: inclinedPort }] };
    const last = inclined[0].flow!.length - 1;
    expect(find(sketch, "beyond-readings").map(({ at }) => at?.start)).toEqual([100 + 1000 * last]);
  });
});

describe("unlike conditions", () => {
  const entry = (second: string): Sketch => ({
    lifts: "mm",
    stages: [
      { ...inclined[0], bench: { intakeEntry: "clay radius" } },
      { ...inclined[1], bench: { intakeEntry: second } },
    ],
  });
  rule("unlike-conditions", entry("none"), entry("clay radius"));
  test("what one of them does not state differs too", () => {
    const [one, other] = inclined;
    const told = (from: object, to: object) =>
      find(
        {
          lifts: "mm",
          stages: [
            { ...one, bench: from },
            { ...other, bench: to },
          ],
        },
        "unlike-conditions",
      ).map(({ message }) => message.replace(/^.*differ: /, "").replaceAll("\u00a0", " "));
    expect(told({}, { intakeEntry: "clay radius" })).toEqual(["entry not stated against clay radius"]);
    expect(told({ intakeEntry: "clay radius" }, {})).toEqual(["entry clay radius against not stated"]);
    expect(told({}, { attached: { intake: "manifold" } })).toEqual(["on the intake none stated against manifold"]);
    expect(told({}, { attached: { exhaust: "pipe" } })).toEqual(["on the exhaust none stated against pipe"]);
    expect(told({}, { name: "the second bench" })).toEqual(["bench not named against the second bench"]);
    const pipe = { diameter: millimetres(45), length: millimetres(100) };
    expect(told({}, { exhaustPipe: pipe })).toEqual(["exhaust pipe none stated against 45 mm × 100 mm"]);
    // "None" is said only of what was typed so.
    expect(told({ noExhaustPipe: true }, { exhaustPipe: pipe })).toEqual(["exhaust pipe none against 45 mm × 100 mm"]);
    expect(told({ noExhaustPipe: true }, {})).toEqual([]);
    expect(told({}, { exhaustPipe: { length: millimetres(100.5) } })).toEqual([
      "exhaust pipe none stated against ? × 100.5 mm",
    ]);
    expect(told({ boreFixture: millimetres(90) }, {})).toEqual(["bore fixture 90.00 mm against not stated"]);
  });
  test("says what differs, on the side that it matters to", () => {
    const found = find(entry("none"), "unlike-conditions");
    expect(found.map((warning) => warning.message)).toEqual([
      "intake: As received and Finished are compared although conditions differ: entry clay radius against none",
    ]);
  });
});

test("every warning names a place or a cause, in lower case or a stage's name, with no full stop", () => {
  const sketches: Sketch[] = [
    { lifts: "mm", stages: [{ ...inclined[0], flow: withCell(inclined[0].flow!, 6, "1210") }] },
    { lifts: "mm", stages: [fourValve[1], fourValve[0], single[0]] },
  ];
  for (const { code, message, hint } of sketches.flatMap((sketch) => check(sketch).warnings)) {
    expect(code).toMatch(/^figures\/[a-z-]+$/);
    expect(message).not.toMatch(/\.$/);
    expect(hint).toBeTruthy();
  }
});

test("a warning says its place where the text it points into is known", () => {
  const { warnings } = check({
    stages: [{ intake: { pinch: { area: squareMetres(0.0001), count: 1 } }, flow: [[0.4, 100]] }],
  });
  const pinch = warnings.find(({ code }) => code === "figures/pinch-share")!;
  const warning = warningFigure(pinch, new Map());
  expect(warning.text).toContain("of the pinch's ideal flow: the pinch was probably measured too small");
  expect(warning).toMatchObject({ file: "job.yaml" });
  expect(warning).not.toHaveProperty("line");
  // The fixture puts the first intake reading at offset 100.
  const text = `${"x".repeat(89)}\n${"y".repeat(40)}`;
  expect(warningFigure(pinch, new Map([["job.yaml", text]]))).toMatchObject({ file: "job.yaml", line: 2, column: 11 });
});
