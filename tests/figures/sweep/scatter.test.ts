import { describe, expect, test } from "vitest";
import { headScatter } from "../../../src/figures/sweep/head-scatter.ts";
import { type MountedReading, scatterOf, shownScatter } from "../../../src/figures/sweep/scatter.ts";
import { ratio } from "../../../src/units/quantity.ts";
import { modelOf, type Row, type RunSketch, type Sketch, type StageSketch } from "../model-fixture.ts";

/** Readings of one port: sweeps over lifts of 1, 2, … mm, mount by mount. */
const readings = (
  mounts: readonly (readonly (readonly number[])[])[],
  { port = "1", cylinder = port }: { readonly port?: string; readonly cylinder?: string } = {},
): MountedReading[] =>
  mounts.flatMap((sweeps, k) =>
    sweeps.flatMap((flows) =>
      flows.map((flow, at) => ({ port, cylinder, mount: `${k + 1}`, lift: (at + 1) / 1000, flow })),
    ),
  );
const stated = { repeatability: { kind: "expanded", value: ratio(0.01) }, remount: ratio(0.012) } as const;
const INFINITE = Number.POSITIVE_INFINITY;

/** JCGM 100:2008 (GUM), 4.2 and H.5, worked by hand. */
describe("repeatability", () => {
  test("from repeats in one mount with two degrees of freedom, else as stated", () => {
    // ± 1 % about each mean: s = √(4 · 0.01² ÷ 2).
    const two = shownScatter(
      readings([
        [
          [99, 198],
          [101, 202],
        ],
      ]),
    );
    expect(scatterOf(two, stated).repeatability).toEqual({
      from: "repeats",
      ratio: expect.closeTo(0.01 * Math.SQRT2, 12),
      dof: 2,
    });
    const pair = shownScatter(readings([[[99], [101]]]));
    expect(scatterOf(pair, stated).repeatability).toEqual({ from: "stated", ratio: 0.005, dof: INFINITE });
    const spread = { repeatability: { kind: "range", spread: ratio(0.012), of: 5 } } as const;
    expect(scatterOf(pair, spread).repeatability).toMatchObject({ ratio: expect.closeTo(0.012 / 2.326, 9) });
    // One degree of freedom and nothing stated is none, however often the head was mounted.
    expect(
      scatterOf(shownScatter(readings([[[99, 99, 99], [101]], [[99, 101, 103]]])), {}).repeatability,
    ).toBeUndefined();
  });
  test("from what remains of mounts where nothing was read twice in one", () => {
    // Distances −1, +1 % and +1, −1 % about the lifts' means; each mount's mean distance is 0.
    const mounted = shownScatter(readings([[[99, 202, 100]], [[101, 198, 100]]]));
    expect(scatterOf(mounted, {}).repeatability).toEqual({
      from: "mounts",
      ratio: expect.closeTo(Math.sqrt((4 * 0.01 ** 2) / 2), 12),
      dof: 2,
    });
    expect(scatterOf(mounted, stated).repeatability).toMatchObject({ from: "stated" });
    // One mount against another over two lifts has one degree of freedom.
    expect(scatterOf(shownScatter(readings([[[99, 202]], [[101, 198]]])), {}).repeatability).toBeUndefined();
    // A lift that only one mount has tells nothing.
    expect(shownScatter(readings([[[99, 202]], [[101]]])).withinMounts).toBeUndefined();
  });
});

describe("re-mounting", () => {
  const mounts = (...flows: readonly number[]) => flows.map((flow) => [[flow, 2 * flow]]);
  test("from own mounts with three degrees of freedom, else as stated, else an allowance", () => {
    const four = shownScatter(readings(mounts(98, 99, 101, 102)));
    const own = Math.sqrt((2 * (0.02 ** 2 + 0.01 ** 2)) / 3);
    expect(scatterOf(four, stated).remounting).toEqual({
      from: "own",
      ratio: expect.closeTo(own, 12),
      dof: 3,
      byCylinder: false,
    });
    const three = shownScatter(readings(mounts(99.5, 100, 100.5)));
    expect(scatterOf(three, stated).remounting).toEqual({
      from: "stated",
      ratio: 0.006,
      dof: INFINITE,
      byCylinder: false,
    });
    expect(scatterOf(three, {}).remounting).toEqual({
      from: "allowance",
      ratio: 0.01,
      dof: INFINITE,
      byCylinder: false,
    });
    // Few mounts that lie further apart than is allowed for count in its place.
    expect(scatterOf(shownScatter(readings(mounts(97, 103))), {}).remounting).toEqual({
      from: "own",
      ratio: expect.closeTo(0.03 * Math.SQRT2, 12),
      dof: INFINITE,
      byCylinder: false,
    });
    expect(scatterOf(shownScatter([]), {}).remounting.ratio).toBe(0.01);
  });
  test("of each cylinder by itself where two were mounted more than once", () => {
    const two = (cylinder: string) => [
      ...readings(mounts(99, 100, 101), { port: "A" }),
      ...readings(mounts(99, 101), { port: "B", cylinder }),
    ];
    expect(scatterOf(shownScatter(two("2")), {}).remounting).toMatchObject({ from: "own", dof: 3, byCylinder: true });
    expect(scatterOf(shownScatter(two("A")), {}).remounting).toMatchObject({ from: "own", byCylinder: false });
  });
});

describe("the scatter of a head", () => {
  const row = (flow: number): Row[] => [[0.3, flow, flow]];
  const run = (flow: number, more: Partial<RunSketch> = {}): RunSketch => ({ rows: row(flow), ...more });
  const scatter = (stages: readonly StageSketch[], sketch: Sketch = {}) => {
    const model = modelOf({ ...sketch, stages });
    const of = headScatter(model.stages, model.reference);
    return model.stages.map((stage) => of({ set: stage.sets[0]!, side: "intake" }));
  };
  test("is pooled over its stages and cylinders, each lift of a mount by itself", () => {
    const [first, second] = scatter([
      { runs: [run(99), run(101), run(300, { cylinder: 2 })] },
      { runs: [run(198), run(202), run(500, { mount: 2 })] },
    ]);
    expect(first!.repeatability).toMatchObject({
      from: "repeats",
      dof: 2,
      ratio: expect.closeTo(0.01 * Math.SQRT2, 9),
    });
    expect(second).toEqual(first);
  });
  test("is that of one bench: by its name, else the file in which it stands", () => {
    const on = (...benches: readonly object[]) =>
      scatter(benches.map((bench) => ({ bench, runs: [run(99), run(101)] }))).map(
        ({ repeatability }) => repeatability?.dof,
      );
    expect(on({ name: "1" }, { name: "1" })).toEqual([2, 2]);
    expect(on({ name: "1" }, { name: "2" })).toEqual([undefined, undefined]);
    expect(on({ file: "a.yaml" }, { file: "a.yaml" })).toEqual([2, 2]);
    expect(on({ file: "a.yaml" }, { file: "b.yaml" })).toEqual([undefined, undefined]);
    expect(on({ name: "1", file: "a.yaml" }, { name: "1", file: "b.yaml" })).toEqual([2, 2]);
  });
  test("counts mounts of a stage that repeats another with that one's, and no other stage's", () => {
    const stage = (name: string, repeats?: string): StageSketch => ({
      name,
      ...(repeats === undefined ? {} : { repeats }),
      runs: [run(99), run(101, { mount: 2 })],
    });
    const remounting = (...stages: readonly StageSketch[]) => scatter(stages)[0]!.remounting;
    expect(remounting(stage("A"), stage("B"))).toMatchObject({ from: "own", dof: INFINITE });
    expect(remounting(stage("A"), stage("Again", "A"))).toMatchObject({ from: "own", dof: 3 });
    expect(remounting(stage("A"), stage("B"), stage("C"))).toMatchObject({ from: "own", dof: 3 });
  });
  test("leaves out what is doubtful", () => {
    const [only] = scatter([
      {
        runs: [
          {
            rows: [
              [0.3, 99],
              [0.3, 101],
              [0.3, "150?"],
            ],
          },
        ],
      },
    ]);
    expect(only!.repeatability).toBeUndefined();
  });
});
