import { describe, expect, test } from "vitest";
import { computeFigures } from "../../src/figures/compute-figures.ts";
import type { SideFigures } from "../../src/figures/figures.ts";
import { cubicMetres, metres, radians, ratio, rpm, squareMetres, type WattsPerFlow } from "../../src/units/quantity.ts";
import { demoHeads, inclined } from "./demo-heads.ts";
import {
  CFM,
  cfm,
  degrees,
  describedPort,
  INCH,
  inches,
  inchesOfWater,
  millimetres,
  modelOf,
  portOf,
  type Row,
  rowsOf,
  type Sketch,
} from "./model-fixture.ts";
import { fc } from "./seeded.ts";

const cfmOf = (flow: number | undefined) => (flow ?? Number.NaN) / CFM;
const inchesOf = (lift: number | undefined) => (lift ?? Number.NaN) / INCH;

/** Intake of a single undated stage in inches and cfm. */
function intakeOf(rows: readonly Row[], sketch: Sketch = {}): SideFigures {
  return computeFigures(modelOf({ stages: [{ flow: rows, intake: {} }], ...sketch })).stages[0]!.intake!;
}

/** Every number of a value, with its path. */
function numbersIn(value: unknown, path = ""): [string, number][] {
  if (typeof value === "number") return [[path, value]];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => numbersIn(inner, `${path}/${key}`));
}

describe("readings", () => {
  test("a mean of the full cylinders' means; where one lacks the lift, of the others and marked", () => {
    const { readings, cylinders, cylinder_spread, flowed } = computeFigures(
      modelOf({
        engine: { cylinders: 6 },
        stages: [
          {
            intake: {},
            runs: [
              {
                cylinder: 5,
                rows: rowsOf("0.1 44, 0.2 84, 0.25 103, 0.3 120"),
              },
              {
                cylinder: 1,
                rows: rowsOf("0.1 40, 0.2 80, 0.2 82, 0.25 99, 0.4 130"),
              },
            ],
          },
        ],
      }),
    ).stages[0]!.intake!;
    // Cylinders are no repeats of each other: the fewest readings of one.
    expect(
      readings.map((one) => [cfmOf(one.flow_m3_s), one.repeats, one.mounts, one.of_cylinders, one.partial]),
    ).toEqual([
      [expect.closeTo(42, 9), 1, 1, [1, 5], undefined],
      [expect.closeTo(82.5, 9), 1, 1, [1, 5], undefined],
      [expect.closeTo(101, 9), 1, 1, [1, 5], undefined],
      [expect.closeTo(120, 9), 1, 1, [5], true],
      [expect.closeTo(130, 9), 1, 1, [1], true],
    ]);
    expect(cylinders.map((one) => one.cylinder)).toEqual([1, 5]);
    expect(flowed).toEqual({ cylinders: [1, 5], n: 2, of: 6 });
    // Means over the three lifts that both have; the spread is their difference over their mean.
    const [one, five] = cylinders.map((cylinder) => cylinder.mean_flow_m3_s);
    expect(cylinder_spread).toBeCloseTo((five! - one!) / ((five! + one!) / 2), 9);
  });

  test("doubtful readings are listed and take no part; a good one at the same lift wins", () => {
    const side = intakeOf([
      [0.1, 40],
      [0.2, "84?"],
      [0.2, 80],
      [0.3, "150?"],
      [0.4, 130],
    ]);
    expect(side.readings.map((one) => [cfmOf(one.flow_m3_s), one.doubtful])).toEqual([
      [expect.closeTo(40, 9), undefined],
      [expect.closeTo(80, 9), undefined],
      [expect.closeTo(150, 9), true],
      [expect.closeTo(130, 9), undefined],
    ]);
    expect(side.readings[2]!.curtain_coefficient).toBeUndefined();
    expect(cfmOf(side.peak!.flow_m3_s)).toBeCloseTo(130, 9);
    const without = intakeOf(rowsOf("0.1 40, 0.2 80, 0.4 130"));
    expect(side.mean_flow).toEqual(without.mean_flow);
    expect(side.curve).toEqual(without.curve);
  });

  test("noisy ones are used and marked; struck out and missing ones are left out", () => {
    const side = intakeOf([
      [0.1, 40],
      [0.2, "80!"],
      [0.3, "~118"],
      [0.4, "-"],
      [0.5, 140],
    ]);
    expect(side.readings.map((one) => one.noisy)).toEqual([undefined, true, undefined]);
    expect(side.left_out.map((one) => [inchesOf(one.lift_m), one.kind])).toEqual([
      [expect.closeTo(0.3, 9), "struck out"],
      [expect.closeTo(0.4, 9), "missing"],
    ]);
    expect(cfmOf(side.left_out[0]!.value_m3_s)).toBeCloseTo(118, 9);
  });

  test("a reading taken at 10 inH2O is reported at 28 and says so", () => {
    const [reading] = intakeOf([[0.3, 100]], { bench: { testPressure: inchesOfWater(10) } }).readings;
    expect(cfmOf(reading!.flow_m3_s)).toBeCloseTo(167.332, 3);
    expect(reading!.converted_from_Pa).toBeCloseTo(2490.889, 3);
    expect(intakeOf([[0.3, 100]]).readings[0]!.converted_from_Pa).toBeUndefined();
  });
});

describe("the demo heads come out as their tables say", () => {
  // Coefficients of the invented heads to the digits of their tables: curtain, minimum area, ft/s at the pinch.
  test.each([
    [0, "intake", 4, 0.7, 0.92, 143],
    [0, "intake", 12, 0.44, 0.7, 273],
    [0, "exhaust", 6, 0.6, 0.76, undefined],
    [1, "intake", 8, 0.69, 0.78, 249],
    [1, "exhaust", 12, 0.42, 0.72, undefined],
  ] as const)("inclined, stage %i %s at %f mm", (stage, side, lift, curtain, minimum, velocity) => {
    const figures = computeFigures(modelOf({ lifts: "mm", stages: inclined }));
    const reading = figures.stages[stage]![side]!.readings.find((one) => Math.abs(one.lift_m * 1000 - lift) < 1e-6)!;
    expect(Math.abs(reading.curtain_coefficient! - curtain)).toBeLessThanOrEqual(0.006);
    expect(Math.abs(reading.discharge_coefficient! - minimum)).toBeLessThanOrEqual(0.006);
    if (velocity !== undefined)
      expect(Math.abs(reading.pinch_velocity_m_s! / 0.3048 - velocity)).toBeLessThanOrEqual(0.6);
  });
  test("share of the pinch's ideal flow: 0.80 and 0.74 as received, 0.85 and 0.78 finished", () => {
    const [received, finished] = computeFigures(modelOf({ lifts: "mm", stages: inclined })).stages;
    expect(received!.intake!.pinch_share_of_ideal).toBeCloseTo(0.8, 2);
    expect(received!.exhaust!.pinch_share_of_ideal).toBeCloseTo(0.74, 2);
    expect(finished!.intake!.pinch_share_of_ideal).toBeCloseTo(0.85, 2);
    expect(finished!.exhaust!.pinch_share_of_ideal).toBeCloseTo(0.78, 2);
    expect(received!.intake!.pinch_to_valve_area).toBeCloseTo(0.61, 2);
  });
});

describe("the shape of a curve", () => {
  // Common practice: a flat spot between 0.500 and 0.600, holding after it.
  test("236, 262, 262, 272 has a flat spot and holds", () => {
    const bench = { repeatability: { kind: "expanded", value: ratio(0.002) } } as const;
    const side = intakeOf(rowsOf("0.4 236, 0.5 262, 0.6 262, 1.0 272"), { bench });
    expect(side.flat_spots!.map((spot) => [inchesOf(spot.from_lift_m), inchesOf(spot.to_lift_m)])).toEqual([
      [expect.closeTo(0.5, 9), expect.closeTo(0.6, 9)],
    ]);
    expect(side.after_peak).toEqual({ to_lift_m: expect.closeTo(1.0 * INCH, 9), change: 0 });
  });
  // Common practice: 268 at 0.600 is the peak, and 254 at 1.000 is 5.2 % below it.
  test("268 then 254 falls away 5.2 %", () => {
    const side = intakeOf(rowsOf("0.5 262, 0.6 268, 1.0 254"));
    expect(inchesOf(side.peak!.lift_m)).toBeCloseTo(0.6, 9);
    expect((side.after_peak!.change * 100).toFixed(1)).toBe("-5.2");
    expect(side.after_peak!.verdict).toBe("too few repeats");
    const sure = intakeOf(rowsOf("0.5 262, 0.6 268, 1.0 254"), {
      bench: { repeatability: { kind: "expanded", value: ratio(0.01) } },
    });
    expect(sure.after_peak!.verdict).toBe("clear loss");
    expect(sure.holds).toEqual({
      from_lift_m: expect.closeTo(0.6 * INCH, 9),
      to_lift_m: expect.closeTo(0.6 * INCH, 9),
    });
  });
  test("of equal highest readings the lowest lift is the peak, and the curve holds to the last of them", () => {
    const side = intakeOf(rowsOf("0.3 200, 0.4 220, 0.5 220, 0.6 210"));
    expect(inchesOf(side.peak!.lift_m)).toBeCloseTo(0.4, 9);
    expect(inchesOf(side.holds!.to_lift_m)).toBeCloseTo(0.5, 9);
    expect(side.flat_spots).toEqual([]);
  });
  test("a small rise between two steep ones is flat, within what the readings can tell; the gentle end of a curve is not", () => {
    const spots = (rows: string, repeatability: number) =>
      intakeOf(rowsOf(rows), { bench: { repeatability: { kind: "expanded", value: ratio(repeatability) } } })
        .flat_spots;
    expect(spots("0.3 190, 0.4 236, 0.45 236.5, 0.5 249", 0.005)).toHaveLength(1);
    expect(spots("0.3 190, 0.4 236, 0.45 236.5, 0.5 249", 0.02)).toEqual([]);
    expect(spots("0.3 190, 0.4 230, 0.45 231, 0.5 232, 0.55 233", 0.005)).toEqual([]);
  });
  test("nothing is said of shape after a conversion by more than 1.5 in pressure", () => {
    const rows: Row[] = rowsOf("0.4 236, 0.5 262, 0.6 262, 1.0 272");
    const at = (pressure: number) =>
      intakeOf(rows, {
        bench: {
          testPressure: inchesOfWater(pressure),
          repeatability: { kind: "expanded", value: ratio(0.002) },
          liftSetting: inches(0),
        },
      });
    const far = at(10);
    expect(far.conversion_pressure_ratio).toBeCloseTo(2.8, 6);
    for (const key of ["after_peak", "holds", "flat_spots"]) expect(far).not.toHaveProperty(key);
    expect(at(25).flat_spots).toHaveLength(1);
  });
});

describe("means and bands", () => {
  test("the mean runs over the lifts that all stages share, and no further than the cam", () => {
    const stages = [
      {
        flow: rowsOf("0.1 40, 0.2 80, 0.3 110, 0.4 130") as Row[],
      },
      {
        flow: rowsOf("0.05 20, 0.1 44, 0.2 85, 0.3 120") as Row[],
      },
    ];
    const free = computeFigures(modelOf({ stages })).stages.map((stage) => stage.intake!.mean_flow!);
    for (const mean of free)
      expect([inchesOf(mean.from_lift_m), inchesOf(mean.to_lift_m)]).toEqual([
        expect.closeTo(0.1, 9),
        expect.closeTo(0.3, 9),
      ]);
    const cam = computeFigures(modelOf({ stages, engine: { cams: { intake: { netLift: inches(0.25) } } } }));
    expect(inchesOf(cam.stages[0]!.intake!.mean_flow!.to_lift_m)).toBeCloseTo(0.25, 9);
  });
  test("a straight curve has its mean in the middle of each band", () => {
    const side = intakeOf(rowsOf("0.1 20, 0.2 40, 0.3 60, 0.4 80"), {
      stages: [
        {
          intake: portOf({ valves: [{ head: inches(1.5) }] }),
          flow: rowsOf("0.1 20, 0.2 40, 0.3 60, 0.4 80"),
        },
      ],
    });
    expect(cfmOf(side.bands.low!.flow_m3_s)).toBeCloseTo((20 + 36) / 2, 9);
    expect(cfmOf(side.bands.mid!.flow_m3_s)).toBeCloseTo((36 + 66) / 2, 9);
    expect(cfmOf(side.bands.high!.flow_m3_s)).toBeCloseTo((66 + 80) / 2, 9);
  });
  test("low, mid and high are shared readings near 0.10, 0.18 and 0.25; the cam is interpolated", () => {
    const figures = computeFigures(
      modelOf({ lifts: "mm", stages: inclined, engine: { cams: { intake: { netLift: millimetres(10.5) } } } }),
    );
    const compared = figures.stages[1]!.intake!.compared;
    expect(compared.map((one) => [one.at, one.lift_m * 1000, one.interpolated])).toEqual([
      ["low", expect.closeTo(4, 9), undefined],
      ["mid", expect.closeTo(8, 9), undefined],
      ["high", expect.closeTo(12, 9), undefined],
      ["cam", expect.closeTo(10.5, 9), true],
      ["peak", expect.closeTo(12, 9), undefined],
    ]);
  });
  test("nothing is said beyond the last reading", () => {
    const figures = computeFigures(
      modelOf({ lifts: "mm", stages: inclined, engine: { cams: { intake: { netLift: millimetres(13) } } } }),
    );
    expect(figures.stages[1]!.intake!.compared.some((one) => one.at === "cam")).toBe(false);
  });
});

describe("what was not measured again", () => {
  test("gives no derived figure, yet is named", () => {
    const port = {
      ...describedPort({ valve: 44, stem: 8, throat: 37.5, seatWidth: 1.5, pinch: 920, volume: 104, length: 100 }),
    };
    const stale = {
      ...port,
      notRemeasured: ["throat", "pinch", "port_volume"],
      stale: ["throat", "pinch", "port_volume"],
    };
    const engine = {
      bore: millimetres(90),
      stroke: millimetres(80),
      rodLength: millimetres(140),
      rpm: { from: rpm(2000), to: rpm(3000) },
    };
    const { intake, engine: figures } = computeFigures(
      modelOf({ lifts: "mm", engine, stages: [{ intake: stale, flow: inclined[0].flow! }] }),
    ).stages[0]!;
    expect(intake!.not_remeasured).toEqual(["throat", "pinch", "port_volume"]);
    for (const key of ["throat_ratio", "pinch_to_valve_area", "mean_port_area_m2", "pinch_share_of_ideal"] as const)
      expect(intake![key]).toBeUndefined();
    for (const reading of intake!.readings) {
      expect(reading.discharge_coefficient).toBeUndefined();
      expect(reading.pinch_velocity_m_s).toBeUndefined();
      expect(reading.curtain_coefficient).toBeGreaterThan(0);
    }
    expect(figures!.pinch_limit_rpm).toBeUndefined();
    expect(figures!.pinch_velocity).toEqual([]);
  });
});

describe("engine", () => {
  const engine = {
    cylinders: 4,
    bore: millimetres(90),
    stroke: millimetres(80),
    rodLength: millimetres(140),
    rpm: { from: rpm(2000), to: rpm(3100) },
    cams: { intake: { netLift: millimetres(10), duration: radians(4), at: millimetres(1) } },
    gasket: { kind: "volume", volume: cubicMetres(8e-6) } as const,
    piston: { dish: cubicMetres(5e-6), belowDeck: millimetres(0.5) },
  };
  const stage = (figures = modelOf({ lifts: "mm", engine, stages: inclined })) => computeFigures(figures).stages[1]!;
  test("pinch limit and band are in proportion", () => {
    const { pinch_limit_rpm, pinch_band_rpm, pinch_velocity } = stage().engine!;
    expect(pinch_band_rpm!.high).toBeCloseTo(pinch_limit_rpm!, 6);
    expect(pinch_band_rpm!.low / pinch_band_rpm!.high).toBeCloseTo(0.45 / 0.55, 9);
    expect(pinch_velocity.map((one) => one.rpm)).toEqual([2000, 2250, 2500, 2750, 3000, 3100]);
    // 0.55 × 343.23 m/s at the limit.
    expect((pinch_velocity[0]!.velocity_m_s * pinch_limit_rpm!) / 2000).toBeCloseTo(0.55 * 343.23, 1);
  });
  test("the Mach index does not depend on duration when lift is a raised cosine, and does with a profile", () => {
    const z = (cam: object) =>
      computeFigures(
        modelOf({
          lifts: "mm",
          engine: { ...engine, cams: { intake: { netLift: millimetres(10), ...cam } } },
          stages: inclined,
        }),
      ).stages[1]!.engine!;
    expect(z({ duration: radians(4), at: millimetres(1) }).z_limit_rpm).toBe(
      z({ duration: radians(5), at: millimetres(1) }).z_limit_rpm,
    );
    expect(z({}).inlet_mach_index_from_lift_only).toBe(true);
    const profile = [0, 1, 2, 3, 4].map((angle, k) => ({
      angle: radians(angle),
      lift: millimetres([0, 9, 10, 9, 0][k]!),
    }));
    expect(z({ profile }).inlet_mach_index_from_lift_only).toBeUndefined();
    expect(z({ profile }).z_limit_rpm).toBeGreaterThan(z({}).z_limit_rpm! * 1.05);
  });
  test("power only when the job asks, from the peak at 28 inH2O", () => {
    expect(stage().engine!.supported_power_W).toBeUndefined();
    const report = { powerPerFlow: 406000 as WattsPerFlow };
    const at = (testPressure: number) =>
      stage(modelOf({ lifts: "mm", testPressure, engine, stages: inclined, report })).engine!.supported_power_W!;
    expect(at(28)).toBeCloseTo(406000 * 202 * CFM * 4, 3);
    expect(at(10)).toBeCloseTo(at(28), 6);
  });
  test("compression over the chambers: the largest gives the lowest", () => {
    const figures = computeFigures(modelOf({ engine, stages: [{ chambers: [50, 51, 52] }] })).stages[0]!;
    // Swept 508.938 cc; clearance 51 + 8 + 3.1809 + 5 = 67.1809 cc.
    expect(figures.compression_ratio).toBeCloseTo(1 + 508.938 / 67.1809, 4);
    expect(figures.compression_ratio_low).toBeCloseTo(1 + 508.938 / 68.1809, 4);
    expect(figures.compression_ratio_high).toBeCloseTo(1 + 508.938 / 66.1809, 4);
    expect(figures.chambers).toEqual({
      mean_m3: expect.closeTo(51e-6, 12),
      low_m3: expect.closeTo(50e-6, 12),
      high_m3: expect.closeTo(52e-6, 12),
      n: 3,
    });
  });
  test("springs belong to the stage that goes out", () => {
    const springs = { installedHeight: millimetres(40), coilBind: millimetres(27), retainerToSeal: millimetres(12) };
    const [received, finished] = computeFigures(
      modelOf({ lifts: "mm", engine, stages: inclined, text: { springs } }),
    ).stages;
    expect(received!.springs).toBeUndefined();
    expect(finished!.springs).toEqual({
      coil_bind_clearance_m: expect.closeTo(0.003, 12),
      retainer_clearance_m: expect.closeTo(0.002, 12),
      largest_lift_m: expect.closeTo(0.01, 12),
    });
  });
});

describe("sets, sides and samples", () => {
  test("sets are never averaged together; those that do not lead say what differs", () => {
    const pipe = { diameter: inches(1.75), length: inches(8) };
    const figures = computeFigures(
      modelOf({
        stages: [
          {
            exhaust: {},
            sets: [
              {
                name: "bare",
                runs: [
                  {
                    rows: [
                      [0.1, undefined, 33],
                      [0.2, undefined, 63],
                    ],
                  },
                ],
              },
              {
                name: "with pipe",
                bench: { exhaustPipe: pipe },
                runs: [
                  {
                    rows: [
                      [0.1, undefined, 35],
                      [0.2, undefined, 69],
                    ],
                  },
                ],
              },
            ],
          },
        ],
      }),
    );
    const [stage] = figures.stages;
    expect(stage!.set).toBe("bare");
    expect(cfmOf(stage!.exhaust!.peak!.flow_m3_s)).toBeCloseTo(63, 9);
    expect(stage!.intake).toBeUndefined();
    expect(stage!.sets).toHaveLength(1);
    expect(stage!.sets[0]!.conditions).toEqual(["exhaust pipe 1.75\u00a0in × 8\u00a0in"]);
    expect(cfmOf(stage!.sets[0]!.exhaust!.peak!.flow_m3_s)).toBeCloseTo(69, 9);
  });
  test("exhaust as a share of intake at lifts measured on both", () => {
    const figures = computeFigures(
      modelOf({
        stages: [
          {
            flow: [
              [0.1, 40, 33],
              [0.2, 80],
              [0.3, 110, "80?"],
            ],
          },
        ],
      }),
    );
    expect(figures.stages[0]!.exhaust_to_intake).toEqual([
      { lift_m: expect.closeTo(0.1 * INCH, 9), ratio: expect.closeTo(0.825, 9) },
    ]);
  });
  test("samples: mean, range and deviation over the heads that have the lift", () => {
    const samples = [
      {
        flow: [
          [0.1, 40],
          [0.2, 80],
        ],
      },
      {
        flow: [
          [0.1, 42],
          [0.2, 82],
        ],
      },
      { flow: [[0.1, 44]] },
    ] as { flow: Row[] }[];
    const { sample } = computeFigures(modelOf({ kind: "product", samples }));
    expect(sample!.n).toBe(3);
    expect(
      sample!.intake!.readings.map((one) => [one.n, cfmOf(one.mean_m3_s), cfmOf(one.standard_deviation_m3_s)]),
    ).toEqual([
      [3, expect.closeTo(42, 9), expect.closeTo(2, 9)],
      [2, expect.closeTo(81, 9), expect.closeTo(Math.SQRT2, 9)],
    ]);
    expect(sample!.exhaust).toBeUndefined();
  });
});

describe("laws of the whole", () => {
  test("every number of every demo head is finite", () => {
    for (const { sketch } of demoHeads)
      for (const [path, value] of numbersIn(computeFigures(modelOf(sketch))))
        expect(Number.isFinite(value), path).toBe(true);
  });

  const cell = fc.oneof(
    fc.double({ min: 0, max: 400, noNaN: true }),
    fc.constantFrom("-", "0?", "55?", "~99", "71!", "0"),
  );
  const rows = fc.array(fc.tuple(fc.constantFrom(0.05, 0.1, 0.15, 0.2, 0.3, 0.4, 0.5), cell, cell), {
    maxLength: 12,
  }) as fc.Arbitrary<Row[]>;
  const sizes = fc.record({
    head: fc.double({ min: 0.02, max: 0.05, noNaN: true }),
    throat: fc.double({ min: 0.015, max: 0.05, noNaN: true }),
    stem: fc.double({ min: 0.004, max: 0.01, noNaN: true }),
  });
  test("it never throws, and every number is finite or absent, whatever was typed", () =>
    fc.assert(
      fc.property(
        fc.array(fc.tuple(rows, rows, sizes), { minLength: 1, maxLength: 3 }),
        fc.boolean(),
        fc.boolean(),
        (stages, stated, engine) => {
          const model = modelOf({
            bench: stated
              ? {
                  accuracy: ratio(0.015),
                  repeatability: { kind: "range", spread: ratio(0.012), of: 5 },
                  remount: ratio(0.014),
                  leakage: { intake: cfm(1.2), testPressure: inchesOfWater(28) },
                }
              : {},
            ...(engine
              ? {
                  engine: {
                    cylinders: 4,
                    bore: inches(3.5),
                    stroke: inches(3),
                    rodLength: inches(5.5),
                    rpm: { from: rpm(2000), to: rpm(7000) },
                    cams: { intake: { netLift: inches(0.35) } },
                  },
                }
              : {}),
            stages: stages.map(([one, five, { head, throat, stem }], k) => ({
              name: `Stage ${k}`,
              intake: {
                valves: [{ head: metres(head), stem: metres(stem) }],
                throat: metres(throat),
                seat: { angle: degrees(45), width: metres(0.0015), bottom: [] },
                pinch: { area: squareMetres(0.001), count: 1 },
              },
              runs: [
                { cylinder: 1, rows: one },
                { cylinder: 5, rows: five },
              ],
            })),
          });
          const figures = computeFigures(model);
          for (const [path, value] of numbersIn(figures)) expect(Number.isFinite(value), path).toBe(true);
          expect(JSON.parse(JSON.stringify(figures))).toEqual(figures);
        },
      ),
      { numRuns: 60 },
    ));

  test("the order of runs changes nothing", () => {
    const runs = [
      {
        cylinder: 1,
        mount: 1,
        rows: rowsOf("0.1 40, 0.2 80, 0.3 110") as Row[],
      },
      {
        cylinder: 1,
        mount: 2,
        rows: rowsOf("0.1 41, 0.2 81, 0.3 112") as Row[],
      },
      {
        cylinder: 5,
        rows: rowsOf("0.1 39, 0.2 78, 0.3 107, 0.1 39.4") as Row[],
      },
    ];
    const of = (order: number[]) =>
      numbersIn(computeFigures(modelOf({ stages: [{ intake: {}, runs: order.map((k) => runs[k]!) }] })));
    const reference = of([0, 1, 2]);
    for (const order of [
      [2, 1, 0],
      [1, 2, 0],
      [0, 2, 1],
    ]) {
      const other = of(order);
      expect(other.map(([path]) => path)).toEqual(reference.map(([path]) => path));
      for (const [k, [path, value]] of other.entries())
        expect(Math.abs(value / reference[k]![1] - 1) || 0, path).toBeLessThan(1e-9);
    }
  });

  test("at four times the test pressure everything reported flows half of what was read more", () =>
    fc.assert(
      fc.property(fc.double({ min: 5, max: 28, noNaN: true }), (pressure) => {
        const at = (p: number) =>
          intakeOf(rowsOf("0.1 40, 0.2 80, 0.3 110"), { bench: { testPressure: inchesOfWater(p) } });
        expect(at(pressure * 4).mean_flow!.flow_m3_s / at(pressure).mean_flow!.flow_m3_s).toBeCloseTo(0.5, 9);
      }),
    ));
});
