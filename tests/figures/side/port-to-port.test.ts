import { describe, expect, test } from "vitest";
import { computeFigures } from "../../../src/figures/compute-figures.ts";
import { studentisedRange } from "../../../src/figures/math/studentised-range.ts";
import { cubicMetresPerSecond, metres, ratio } from "../../../src/units/quantity.ts";
import { CFM, INCH, modelOf, type Row, type RunSketch, rowsOf } from "../model-fixture.ts";
import { fc } from "../seeded.ts";
import {
  average,
  generatedRuns,
  LIFTS,
  type PlainPort,
  type PortRun,
  plainPorts,
  sketchRuns,
} from "./generated-heads.ts";

const intakeOf = (runs: readonly RunSketch[], bench = {}) =>
  computeFigures(modelOf({ bench, stages: [{ intake: {}, runs }] })).stages[0]!.intake!;
const inch = (lift: number) => Math.round((lift / INCH) * 1e4) / 1e4;

/** Of two equals the first in the list. */
const largest = <T>(all: readonly T[], size: (one: T) => number): T | undefined =>
  all.find((one) => size(one) === Math.max(...all.map(size)));

/** Full ports, the hand of the curve, its rows and the means, worked out from the typed numbers alone. */
function plainly(runs: readonly PortRun[]) {
  const ports = plainPorts(runs);
  const hasGood = ports.some(({ good }) => good.size > 0);
  const counted = (port: PlainPort) => [...(hasGood ? port.good : port.doubtful).keys()];
  // Typed order counts among equals; a port without what is counted is none.
  const candidates = ports.filter((port) => counted(port).length > 0);
  const most = largest(candidates, (port) => counted(port).length)!;
  const full = candidates.filter(
    (port) => counted(most).filter((lift) => counted(port).includes(lift)).length * 4 >= counted(most).length * 3,
  );
  const hands = [...new Set(full.map(({ hand }) => hand))];
  const hand = largest(hands, (one) =>
    full.filter((port) => port.hand === one).reduce((sum, port) => sum + counted(port).length, 0),
  )!;
  const curve = full.filter((port) => port.hand === hand).sort((a, b) => a.cylinder - b.cylinder);
  const rows = LIFTS.flatMap((lift) => {
    const good = curve.filter((port) => port.good.has(lift));
    const used = good.length > 0 ? good : curve.filter((port) => port.doubtful.has(lift));
    if (used.length === 0) return [];
    const flow = average(used.map((port) => average((good.length > 0 ? port.good : port.doubtful).get(lift)!)));
    return [
      {
        lift,
        flow,
        cylinders: used.map(({ cylinder }) => cylinder),
        doubtful: good.length === 0,
        partial: good.length > 0 && good.length < curve.length,
      },
    ];
  });
  const alike = ports.filter((port) => port.hand === hand && port.good.size > 0);
  const shared = LIFTS.filter((lift) => alike.length > 0 && alike.every((port) => port.good.has(lift)));
  const means = alike.map((port) => ({ ...port, mean: average(shared.map((lift) => average(port.good.get(lift)!))) }));
  return { ports, full, hand, curve, rows, shared, means };
}

test("port to port of a hundred generated heads is what a plain calculation gives", () => {
  let odd = 0;
  let partial = 0;
  fc.assert(
    fc.property(
      generatedRuns.filter((runs) => plainPorts(runs).length > 0),
      (runs) => {
        const { ports, full, hand, rows, shared, means } = plainly(runs);
        const { readings, port_to_port: ptp, hand: found, flowed } = intakeOf(sketchRuns(runs));
        expect(found ?? "").toBe(hand);
        expect(flowed.n).toBe(ports.length);
        expect(
          readings.map((one) => [inch(one.lift_m), one.of_cylinders, one.doubtful ?? false, one.partial ?? false]),
        ).toEqual(rows.map(({ lift, cylinders, doubtful, partial }) => [lift, cylinders, doubtful, partial]));
        for (const [k, { flow }] of rows.entries()) expect(readings[k]!.flow_m3_s / CFM).toBeCloseTo(flow, 9);
        if (rows.some((row) => row.partial)) partial++;
        if (ports.length < 2) {
          expect(ptp).toBeUndefined();
          return;
        }
        if (full.length < ports.length) odd++;
        const key = (one: { cylinder: number; hand?: string }) => `${one.cylinder} ${one.hand ?? ""}`;
        expect(ptp!.cylinders.filter((one) => one.full).map(key)).toEqual(full.map((one) => one.key).sort());
        expect(ptp!.lifts_m.map(inch)).toEqual(shared);
        for (const port of ports) {
          const own = ptp!.cylinders.find((one) => key(one) === port.key)!;
          const lifts = LIFTS.filter((lift) => port.good.has(lift) || port.doubtful.has(lift));
          expect(own.readings.map(({ lift_m }) => inch(lift_m))).toEqual(lifts);
          for (const [k, lift] of lifts.entries()) {
            const values = port.good.get(lift) ?? port.doubtful.get(lift)!;
            expect(own.readings[k]!.flow_m3_s / CFM).toBeCloseTo(average(values), 9);
            expect(own.readings[k]!.doubtful ?? false).toBe(!port.good.has(lift));
          }
          const mean = shared.length > 0 ? means.find((one) => one.key === port.key)?.mean : undefined;
          if (mean === undefined) expect(own.mean_m3_s).toBeUndefined();
          else expect(own.mean_m3_s! / CFM).toBeCloseTo(mean, 9);
        }
        const flows = means.map(({ mean }) => mean);
        if (shared.length === 0 || flows.length < 2) {
          expect(ptp!.spread_ratio).toBeUndefined();
          return;
        }
        const spread = (Math.max(...flows) - Math.min(...flows)) / average(flows);
        expect(ptp!.spread_ratio).toBeCloseTo(spread, 9);
      },
    ),
    { numRuns: 120 },
  );
  // Both kinds were met.
  expect(Math.min(odd, partial)).toBeGreaterThan(10);
});

describe("an evenness check", () => {
  const all = rowsOf("0.1 40, 0.2 80, 0.3 115, 0.4 140, 0.5 150");
  const check = (by: number): Row[] => [
    [0.2, 80 * by],
    [0.4, 140 * by],
  ];
  const head = [
    { cylinder: 1, rows: all },
    { cylinder: 2, rows: check(1.02) },
    { cylinder: 3, rows: check(0.99) },
    { cylinder: 4, rows: check(1.01) },
  ];
  test("is compared at the lifts that all have, and leaves the curve alone", () => {
    const { readings, port_to_port: ptp, peak } = intakeOf(head);
    expect(readings.map(({ flow_m3_s }) => Math.round(flow_m3_s / CFM))).toEqual([40, 80, 115, 140, 150]);
    expect(peak!.flow_m3_s / CFM).toBeCloseTo(150, 9);
    expect(ptp!.spread_ratio).toBeCloseTo(0.03 / 1.005, 9);
    expect(ptp!.cylinders.map(({ full }) => full)).toEqual([true, false, false, false]);
  });
  // JCGM 100: repeats √(Σ q²) ÷ Σ q of s each, re-mounting in full; q(0.9545; 4, ∞) by the studentised range.
  test("beside it stands what the bench alone would give", () => {
    const bench = {
      repeatability: { kind: "expanded", value: ratio(0.01) } as const,
      remount: ratio(0.014),
      resolution: cubicMetresPerSecond(0),
      liftSetting: metres(0),
      accuracy: ratio(0.05),
    };
    const repeats = (0.005 * Math.hypot(80, 140)) / 220;
    const u = Math.hypot(repeats, 0.007);
    expect(intakeOf(head, bench).port_to_port!.from_bench_ratio).toBeCloseTo(studentisedRange(4, 1e9) * u, 9);
    const spread = { ...bench, repeatability: { kind: "range", spread: ratio(0.01), of: 5 } as const };
    const { from_bench_ratio: few, ...rest } = intakeOf(head, spread).port_to_port!;
    // d₂ and d₃ of five values: 2.326 and 0.864 (control-chart factors, from memory).
    const nu = Math.min(4, 0.5 * (2.326 / 0.864) ** 2 + 0.25);
    const own = ((0.01 / 2.326) * Math.hypot(80, 140)) / 220;
    const dof = (own ** 2 + 0.007 ** 2) ** 2 / (own ** 4 / nu);
    expect(few).toBeCloseTo(studentisedRange(4, dof) * Math.hypot(own, 0.007), 9);
    expect(rest.spread_ratio).toBeCloseTo(0.03 / 1.005, 9);
  });
  test("without repeatability the bench's share is not known", () => {
    expect(intakeOf(head).port_to_port!.from_bench_ratio).toBeUndefined();
  });
});

describe("hands", () => {
  const full = rowsOf("0.1 40, 0.2 80, 0.3 115");
  const stage = (name: string, ...runs: readonly RunSketch[]) => ({ name, intake: {}, runs });
  test("one hand leads in all stages that have it, counted over all of them", () => {
    const { stages } = computeFigures(
      modelOf({
        stages: [
          stage("A", { cylinder: 1, hand: "end", rows: full }, { cylinder: 3, hand: "middle", rows: full }),
          stage("B", { cylinder: 2, hand: "middle", rows: full }, { cylinder: 3, hand: "middle", rows: full }),
          stage("C", { cylinder: 1, hand: "end", rows: full }),
        ],
      }),
    );
    expect(stages.map(({ intake }) => intake!.hand)).toEqual(["middle", "middle", "end"]);
    // No cylinder is in all three curves.
    expect(stages.map(({ intake }) => intake!.mean_flow)).toEqual([undefined, undefined, undefined]);
  });
  test("of two ports of a cylinder each is one of all that the engine has", () => {
    const twin = {
      intake: { ports: 2 },
      runs: [
        { hand: "a", rows: full },
        { hand: "b", rows: full },
      ],
    };
    const { flowed } = computeFigures(modelOf({ engine: { cylinders: 4 }, stages: [twin] })).stages[0]!.intake!;
    expect(flowed).toEqual({ cylinders: [1], n: 2, of: 8 });
  });
});

test("means are over the cylinders full in all stages, and a comparison over those full in both", () => {
  const four = rowsOf("0.1 40, 0.2 80, 0.3 115, 0.4 140");
  const more = rowsOf("0.1 44, 0.2 88, 0.3 126, 0.4 154");
  const two = four.slice(1, 3);
  const { stages, comparisons } = computeFigures(
    modelOf({
      stages: [
        {
          name: "A",
          intake: {},
          runs: [
            { cylinder: 1, rows: four },
            { cylinder: 2, rows: more },
          ],
        },
        {
          name: "B",
          intake: {},
          runs: [
            { cylinder: 1, rows: two },
            { cylinder: 2, rows: more },
          ],
        },
      ],
    }),
  );
  expect(stages.map(({ intake }) => intake!.mean_flow!.cylinders)).toEqual([[2], [2]]);
  expect(comparisons[0]!.cylinders).toEqual([2]);
  expect(comparisons[0]!.mean_change_ratio).toBeCloseTo(0, 12);
});
