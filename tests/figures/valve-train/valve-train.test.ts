import { describe, expect, test } from "vitest";
import { springForce, springRate } from "../../../src/figures/valve-train/spring-force.ts";
import { anotherShim, median, offMedian } from "../../../src/figures/valve-train/unlike-values.ts";
import { valveTrainFigures } from "../../../src/figures/valve-train/valve-train-figures.ts";
import type { Springs, ValveTrainRow } from "../../../src/model/model.ts";
import { toSi } from "../../../src/units/convert.ts";
import { metres, newtons, newtonsPerMetre } from "../../../src/units/quantity.ts";
import { inches } from "../model-fixture.ts";
import { fc } from "../seeded.ts";

const lbf = (value: number) => newtons(toSi(value, "force", "lbf"));
const toLbf = (value: number | undefined) => value! / lbf(1);
const toInches = (value: number | undefined) => value! / inches(1);

/** 84 lbf at 1.560 in, 242 lbf/in, solid at 1.020 in, set up for 0.420 in. */
const SPRINGS: Springs = {
  installedHeight: inches(1.56),
  seatForce: lbf(84),
  rate: newtonsPerMetre(toSi(242, "springRate", "lbf/in")),
  coilBind: inches(1.02),
  retainerToSeal: inches(0.51),
  setUpFor: inches(0.42),
};
const row = (valve: string, more: Partial<ValveTrainRow> = {}): ValveTrainRow => ({
  cylinder: Number(valve[0]),
  side: valve[1] === "I" ? "intake" : "exhaust",
  letter: valve.slice(2),
  ...more,
});

describe("a linear spring", () => {
  // Hooke's law, F = F0 + k x. By hand: 400 N + 40 N/mm × 10 mm = 800 N; 25 lbf + 100 lbf/in × 0.5 in = 75 lbf.
  test("force at a compression, worked by hand", () => {
    expect(springForce(400, 40e3, 0.01)).toBeCloseTo(800, 9);
    const rate = toSi(100, "springRate", "lbf/in");
    expect(toLbf(springForce(lbf(25), rate, inches(0.5)))).toBeCloseTo(75, 9);
  });
  // By definition: 1 lbf/in = 4.4482216152605 N ÷ 25.4 mm = 0.175126835… N/mm (NIST SP 811, B.8: 1.751 268 E+02 N/m).
  test("a rate in pounds an inch against the published factor", () => {
    expect(toSi(1, "springRate", "lbf/in")).toBeCloseTo(175.1268, 4);
    expect(toSi(1, "springRate", "kgf/mm")).toBeCloseTo(9806.65, 9);
  });
  // By hand: (215 − 84) ÷ 0.430 = 304.651… lbf/in.
  test("the rate follows from the two forces, and a stated one wins", () => {
    const forces = { seatForce: lbf(84), openForce: lbf(215), openAt: inches(0.43) };
    const found = springRate(forces)!;
    expect(found.rate / toSi(1, "springRate", "lbf/in")).toBeCloseTo(304.65116, 4);
    expect(found.from).toBe("forces");
    expect(springRate({ ...forces, rate: newtonsPerMetre(42000) })).toEqual({ rate: 42000, from: "stated" });
    expect(springRate({ seatForce: lbf(84) })).toBeUndefined();
  });
});

describe("each valve", () => {
  const figures = (rows: readonly ValveTrainRow[], springs: Springs = SPRINGS) =>
    valveTrainFigures(rows, { springs, valveTrainLimits: {} })!.valves;
  test("at the stated height: the stated force, and margins by hand", () => {
    const [valve] = figures([row("1I", { height: inches(1.56) })]);
    expect(toLbf(valve!.seat_force_N)).toBeCloseTo(84, 6);
    // 84 + 242 × 0.420 = 185.64
    expect(toLbf(valve!.set_up_force_N)).toBeCloseTo(185.64, 6);
    // 1.560 − 0.420 − 1.020 = 0.120; 0.510 − 0.420 = 0.090
    expect(toInches(valve!.coil_bind_clearance_m)).toBeCloseTo(0.12, 9);
    expect(toInches(valve!.retainer_clearance_m)).toBeCloseTo(0.09, 9);
  });
  test("fitted 0.003 in longer: 0.726 lbf less, 0.003 in more to coil bind, the seal as it was", () => {
    const [valve] = figures([row("1I", { height: inches(1.563), shim: inches(0.03) })]);
    expect(toLbf(valve!.seat_force_N)).toBeCloseTo(83.274, 6);
    expect(toLbf(valve!.set_up_force_N)).toBeCloseTo(184.914, 6);
    expect(toInches(valve!.coil_bind_clearance_m)).toBeCloseTo(0.123, 9);
    expect(toInches(valve!.retainer_clearance_m)).toBeCloseTo(0.09, 9);
  });
  test("a gap to the seal measured at the valve wins", () => {
    const [valve] = figures([row("1I", { seal: inches(0.5) })]);
    expect(toInches(valve!.retainer_clearance_m)).toBeCloseTo(0.08, 9);
  });
  test("what is not known has no key", () => {
    const [valve] = figures([row("1I", { height: inches(1.56) })], { installedHeight: inches(1.56) });
    expect(Object.keys(valve!)).toEqual([
      "valve",
      "cylinder",
      "side",
      "installed_height_m",
      "not_alike",
      "beyond_limit",
    ]);
  });
  test("order: by cylinder, intake first, twin valves by letter", () => {
    const rows = ["2E", "1Ib", "2I", "1E", "1Ia"].map((valve) => row(valve));
    expect(figures(rows).map(({ valve }) => valve)).toEqual(["1Ia", "1Ib", "1E", "2I", "2E"]);
  });
  test("each side has its own springs where they differ", () => {
    const springsBySide = { intake: SPRINGS, exhaust: { ...SPRINGS, seatForce: lbf(70) } };
    const rows = [row("1I", { height: inches(1.56) }), row("1E", { height: inches(1.56) })];
    const [intake, exhaust] = valveTrainFigures(rows, { springsBySide, valveTrainLimits: {} })!.valves;
    expect([toLbf(intake!.seat_force_N), toLbf(exhaust!.seat_force_N)].map(Math.round)).toEqual([84, 70]);
  });
  test("force falls with the rate × height, whatever the spring", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.03, max: 0.05, noNaN: true }),
        fc.double({ min: 1e4, max: 1e5, noNaN: true }),
        (h, k) => {
          const springs = { ...SPRINGS, rate: newtonsPerMetre(k) };
          const [one, other] = figures(
            [row("1I", { height: metres(h) }), row("2I", { height: metres(h + 0.001) })],
            springs,
          );
          expect(one!.seat_force_N! - other!.seat_force_N!).toBeCloseTo(k * 0.001, 6);
          expect(one!.set_up_force_N! - one!.seat_force_N!).toBeCloseTo(k * SPRINGS.setUpFor!, 6);
        },
      ),
    );
  });
});

describe("not as its neighbours", () => {
  test("the median, worked by hand", () => {
    expect([median([3]), median([4, 1]), median([9, 1, 2])]).toEqual([3, 2.5, 2]);
  });
  test("off the median by more than alike; without alike, or of two, none", () => {
    const drops = [0.032, 0.031, 0.046, 0.032];
    expect(offMedian(drops, 0.005)).toEqual([false, false, true, false]);
    expect(offMedian(drops, undefined)).toEqual([false, false, false, false]);
    expect(offMedian([0.01, 0.09], 0.005)).toEqual([false, false]);
    // Exactly at the limit is alike, whatever the last bit: 0.037 − 0.032 = 0.005.
    expect(offMedian([0.032, 0.032, 0.037], 0.005)).toEqual([false, false, false]);
  });
  test("a shim other than most of its row has", () => {
    expect(anotherShim([0.03, 0.045, 0.03, undefined])).toEqual([false, true, false, false]);
    expect(anotherShim([0.03, 0.045])).toEqual([false, false]);
    expect(anotherShim([])).toEqual([]);
  });
  test("each side is a row of its own, with its spread", () => {
    const rows = [0.03, 0.03, 0.045].flatMap((shim, i) => [
      row(`${i + 1}I`, { shim: inches(shim), drop: inches(0.02 + i / 1000) }),
      row(`${i + 1}E`, { shim: inches(0.06), drop: inches(i === 0 ? 0.046 : 0.032) }),
    ]);
    const found = valveTrainFigures(rows, { valveTrainLimits: { alike: inches(0.005) } })!;
    expect(found.valves.filter((one) => one.not_alike.length > 0).map((one) => [one.valve, one.not_alike])).toEqual([
      ["1E", ["drop_m"]],
      ["3I", ["shim_m"]],
    ]);
    const drop = found.spreads.find(({ side, value }) => side === "exhaust" && value === "drop_m")!;
    expect([drop.low_m, drop.median_m, drop.high_m].map((one) => Number(toInches(one).toFixed(6)))).toEqual([
      0.032, 0.032, 0.046,
    ]);
  });
});

describe("beyond the shop's limits", () => {
  const limits = {
    guide: inches(0.0025),
    runout: inches(0.0015),
    seatForce: [lbf(80), lbf(90)],
    openForce: [lbf(180), lbf(195)],
    coilBind: inches(0.12),
    retainerToSeal: inches(0.06),
  } as const;
  const beyond = (more: Partial<ValveTrainRow>, own = {}) =>
    valveTrainFigures([row("3E", more)], { springs: SPRINGS, valveTrainLimits: { ...limits, ...own } })!.valves[0]!
      .beyond_limit;
  test("each named, at the limit none", () => {
    expect(beyond({ height: inches(1.56), guide: inches(0.0025), runout: inches(0.0015), vacuum: "held" })).toEqual([]);
    expect(beyond({ runout: inches(0.0017), guide: inches(0.003), vacuum: "lost" })).toEqual([
      "guide_clearance_m",
      "seat_runout_m",
      "vacuum",
    ]);
    // 84 + 242 × 0.030 = 91.26 lbf; 1.530 − 0.420 − 1.020 = 0.090 in
    expect(beyond({ height: inches(1.53) })).toEqual(["seat_force_N", "coil_bind_clearance_m"]);
    // 84 − 242 × 0.040 = 74.3 lbf; at the set-up lift 176.0 lbf
    expect(beyond({ height: inches(1.6) })).toEqual(["seat_force_N", "set_up_force_N"]);
  });
  test("what the shop does not limit is not judged", () => {
    expect(beyond({ guide: inches(0.1) }, { guide: undefined })).toEqual([]);
  });
});
