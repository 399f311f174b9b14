import { describe, expect, test } from "vitest";
import { compareSweeps } from "../../../src/figures/comparison/comparison.ts";
import { combine } from "../../../src/figures/math/uncertainty.ts";
import { type SweepSource, sweepName } from "../../../src/figures/sweep/point.ts";
import { type FlowedStage, readAllSweeps, readHeadSweeps } from "../../../src/figures/sweep/read-all-sweeps.ts";
import { type Model, SIDES } from "../../../src/model/model.ts";
import { inchesOfWater } from "../model-fixture.ts";
import { fc } from "../seeded.ts";
import { statedModel } from "../stated-model.ts";

const stated = statedModel();
// Two other heads and two samples that nothing but their place tells apart.
const model: Model = {
  ...stated,
  compared: [...stated.compared, structuredClone(stated.compared[0]!)],
  samples: [...stated.samples, structuredClone(stated.samples[0]!)],
};
const { stages, compared, samples } = readAllSweeps(model);
const sweeps = [...stages, ...compared, ...samples].flatMap(({ sets }) =>
  sets.flatMap((set) => SIDES.map((side) => set[side])),
);
const sources: readonly SweepSource[] = sweeps.flatMap(({ source }) => [
  source,
  ...source.set.runs.map((_, run) => ({ ...source, run })),
]);
const references = [model.reference, { ...model.reference, testPressure: inchesOfWater(25) }];
const heads = [
  { head: "", stages: model.stages },
  ...[...model.compared, ...model.samples].map(({ stage }, k) => ({ head: `other ${k + 1}`, stages: [stage] })),
];

describe("any order and number of calls gives the same ±", () => {
  const order = fc.array(fc.tuple(fc.nat(heads.length - 1), fc.nat(references.length - 1)), { maxLength: 10 });
  const read = (head: number, reference: number) =>
    readHeadSweeps(heads[head]!.head, heads[head]!.stages, references[reference]!);
  test("of readings", () => {
    const plusMinus = (head: number, reference: number) =>
      read(head, reference).flatMap(({ sets }) =>
        sets.flatMap((set) => SIDES.flatMap((side) => set[side].good.map(({ terms }) => combine(terms!).expanded))),
      );
    const alone = references.map((_, reference) => heads.map((_, head) => plusMinus(head, reference)));
    expect(alone[0]![0]!.length).toBeGreaterThan(20);
    fc.assert(
      fc.property(order, (calls) => {
        for (const [head, reference] of calls) expect(plusMinus(head, reference)).toEqual(alone[reference]![head]);
      }),
      { numRuns: 20 },
    );
  });
  test("of comparisons, whatever was read before the first sweep and between the two", () => {
    const compare = (earlier: readonly (readonly [number, number])[]) => {
      for (const call of earlier) read(...call);
      const from = read(0, 0)[0]!.intake!;
      for (const call of earlier) read(...call);
      const to = read(0, 0)[2]!.intake!;
      return compareSweeps({ from, to, side: "intake", same: true }, { units: model.units, lifts: [] });
    };
    const alone = compare([]);
    expect(alone.changes[0]!.uncertainty_m3_s).toBeGreaterThan(0);
    fc.assert(
      fc.property(order, (calls) => {
        expect(compare(calls)).toEqual(alone);
      }),
      { numRuns: 20 },
    );
  });
  test("of stages in another order", () => {
    const plusMinus = (stages: Model["stages"]) =>
      new Map(
        readHeadSweeps("", stages, model.reference).flatMap(({ stage, intake }) =>
          (intake?.good ?? []).map((one) => [`${stage.name} ${one.lift}`, combine(one.terms!).expanded] as const),
        ),
      );
    const [forth, back] = [plusMinus(model.stages), plusMinus([...model.stages].reverse())];
    expect(forth.size).toBeGreaterThan(5);
    for (const [key, expanded] of forth) expect(back.get(key)! / expanded, key).toBeCloseTo(1, 12);
  });
});

describe("two different sweeps never share a name", () => {
  test("of one model, its other heads, samples and single runs among them", () => {
    expect(sources.length).toBeGreaterThan(60);
    expect(new Set(sources.map(sweepName)).size).toBe(sources.length);
  });
  test("of two sets in one stage that have one name", () => {
    const [stage] = model.stages;
    const sets = stage!.sets.map((set) => ({ ...set, name: "with plenum" }));
    const [{ sets: flowed }] = readHeadSweeps("", [{ ...stage!, sets }], model.reference) as [FlowedStage];
    expect(new Set(flowed.map(({ intake }) => sweepName(intake.source))).size).toBe(sets.length);
  });
  test("whatever heads and stages are called", () => {
    const [{ sets }] = model.stages as [Model["stages"][number]];
    const text = fc.constantFrom("", "a", '"', ",", '","', "1", "null", "a\\");
    const parts = fc.record({
      head: text,
      stage: text,
      set: fc.nat(sets.length - 1),
      side: fc.constantFrom(...SIDES),
      run: fc.option(fc.nat(2), { nil: undefined }),
    });
    const nameOf = ({ head, stage, set, side, run }: typeof parts extends fc.Arbitrary<infer T> ? T : never) =>
      sweepName({
        head,
        stage: { ...model.stages[0]!, name: stage },
        set: sets[set]!,
        side,
        ...(run === undefined ? {} : { run }),
      });
    fc.assert(
      fc.property(parts, parts, (one, other) => {
        expect(nameOf(one) === nameOf(other)).toBe(JSON.stringify(one) === JSON.stringify(other));
      }),
      { numRuns: 1000 },
    );
  });
});
