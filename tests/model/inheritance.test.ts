import { describe, expect, test } from "vitest";
import { jobWith, modelOf, sweep } from "./model-of.ts";

const INCH = 0.0254;
const port = (stages: string, index: number, more = "") =>
  modelOf(jobWith(stages, more)).model.stages[index]?.ports.intake;

describe("a stage takes what it does not state from the stage above", () => {
  const first =
    "  - { name: One, intake: { valve: { head: 1.7, margin: 0.05, stem: 0.3, back_cut: { angle: 30, width: 0.03 } }, seat: { angle: 45, width: 0.06, bottom: [60, 70] }, throat: 1.4, pinch: { width: 0.9, height: 1.7, corner: 0.2, where: wall } } }\n";
  test("valve, seat and pinch key by key", () => {
    const own = port(
      `${first}  - { name: Two, intake: { valve: 1.8, seat: { width: 0.05 }, pinch: { height: 1.8 } } }\n`,
      1,
    );
    expect(own?.valves[0]?.head).toBeCloseTo(1.8 * INCH, 12);
    expect(own?.valves[0]?.margin).toBeCloseTo(0.05 * INCH, 12);
    expect(own?.valves[0]?.backCut?.width).toBeCloseTo(0.03 * INCH, 12);
    expect(own?.seat?.angle).toBeCloseTo(Math.PI / 4, 12);
    expect(own?.seat?.width).toBeCloseTo(0.05 * INCH, 12);
    expect(own?.pinch?.shape?.width).toBeCloseTo(0.9 * INCH, 12);
    expect(own?.pinch?.shape?.height).toBeCloseTo(1.8 * INCH, 12);
    expect(own?.pinch?.where).toBe("wall");
    expect(own?.notRemeasured).toEqual(["throat"]);
  });
  test("lists replace", () => {
    const own = port(`${first}  - { name: Two, intake: { seat: { bottom: [75] } } }\n`, 1);
    expect(own?.seat?.bottom).toHaveLength(1);
  });
  test("through any number of stages", () => {
    const own = port(`${first}  - { name: Two }\n  - { name: Three, intake: { throat: 1.45 } }\n`, 2);
    expect(own?.throat).toBeCloseTo(1.45 * INCH, 12);
    expect(own?.notRemeasured).toEqual(["valve", "seat", "pinch"]);
  });
  test("`not measured` ends it, for good", () => {
    const stages = `${first}  - { name: Two, intake: { throat: not measured, pinch: not measured, seat: not measured, valve: { margin: not measured } } }\n  - { name: Three }\n`;
    for (const index of [1, 2]) {
      const own = port(stages, index);
      expect(own?.throat).toBeUndefined();
      expect(own?.pinch).toBeUndefined();
      expect(own?.seat).toBeUndefined();
      expect(own?.valves[0]?.margin).toBeUndefined();
      expect(own?.valves[0]?.head).toBeCloseTo(1.7 * INCH, 12);
    }
  });
  test("a pinch restated as an area loses its width and height, and the other way round", () => {
    const area = port(`${first}  - { name: Two, intake: { pinch: 1.6 } }\n`, 1);
    expect(area?.pinch?.area).toBeCloseTo(1.6 * INCH ** 2, 12);
    expect(area?.pinch?.shape).toBeUndefined();
    const size = port(
      "  - { name: One, intake: { pinch: 1.6 } }\n  - { name: Two, intake: { pinch: { width: 1, height: 2 } } }\n",
      1,
    );
    expect(size?.pinch?.area).toBeCloseTo(2 * INCH ** 2, 12);
  });
  test("`repeats` takes them from the stage that it measures again", () => {
    const own = port(`${first}  - { name: Two, intake: { throat: 1.5 } }\n  - { name: Again, repeats: One }\n`, 2);
    expect(own?.throat).toBeCloseTo(1.4 * INCH, 12);
  });
  test("`added` tells what was done in one stage only", () => {
    const stages = "  - { name: One, intake: { throat: 1.4, added: filler } }\n  - { name: Two }\n";
    expect(port(stages, 0)?.added).toBe("filler");
    expect(port(stages, 1)?.added).toBeUndefined();
  });
  test("chambers, deck and layout too", () => {
    const stages =
      "  - { name: One, chambers: { 2: 43 cc, 1: 42 cc, 10: 44 cc }, deck: { cut: 0.01, flatness: 0.002 }, layout: { bore: 3.4, intake: [ [0.7, 0] ] } }\n  - { name: Two, deck: { cut: 0.02 } }\n  - { name: Three, chamber: 40 cc }\n";
    const [one, two, three] = modelOf(jobWith(stages)).model.stages;
    expect(one?.chambers.map((each) => each.chamber)).toEqual([1, 2, 10]);
    expect([one?.chambersNotRemeasured, two?.chambersNotRemeasured, three?.chambersNotRemeasured]).toEqual([
      false,
      true,
      false,
    ]);
    expect(two?.chambers).toEqual(one?.chambers);
    expect(two?.deck?.cut).toBeCloseTo(0.02 * INCH, 12);
    expect(two?.deck?.flatness).toBeCloseTo(0.002 * INCH, 12);
    expect(two?.layout?.intake).toEqual([[0.7 * INCH, 0]]);
    expect(three?.chambers).toHaveLength(1);
  });
});

describe("areas", () => {
  // Hand calculation: 0.92 × 1.72 − (4 − π) × 0.20² = 1.5824 − 0.034336 = 1.548064 in²; two of them 3.096127 in².
  test("a pinch from width, height and corner, times its count", () => {
    const own = port(
      "  - { name: One, intake: { pinch: { width: 0.92, height: 1.72, corner: 0.20, count: 2 } } }\n",
      0,
    );
    expect((own?.pinch?.area ?? 0) / INCH ** 2).toBeCloseTo(3.096127, 6);
  });
  test("unlike valves are listed, like ones are repeated", () => {
    expect(port("  - { name: One, intake: { valves: 2, valve: 1.3 } }\n", 0)?.valves).toHaveLength(2);
    const unlike = port(
      "  - { name: One, intake: { valves: 2, valve: [1.3, { head: 1.2, stem: 0.2 }], stem: 0.25 } }\n",
      0,
    )?.valves;
    expect(unlike?.map((each) => each.stem)).toEqual([0.25 * INCH, 0.2 * INCH]);
  });
});

describe("nothing is derived from inherited sizes where that port carries work or its flow changed", () => {
  const stages = (before: number, after: number) =>
    `  - name: One\n    intake: { valve: 1.7, throat: 1.4, pinch: 1.5, port_volume: 100 }\n    flow: |\n${sweep(6, before, before * 2)}\n  - name: Two\n    intake: { throat: 1.45 }\n    flow: |\n${sweep(6, after, after * 2)}\n`;
  test("work on that port", () => {
    const { model, diagnostics } = modelOf(jobWith(stages(40, 40), "work: { Intake ports: [ Bowls opened ] }"));
    expect(model.stages[1]?.ports.intake?.stale).toEqual(["pinch", "port_volume"]);
    expect(diagnostics.map((each) => [each.severity, each.code])).toEqual([["warning", "model/stale-dimension"]]);
    expect(diagnostics[0]?.message).toBe("`pinch`, `port_volume` of the intake port were not measured again in `Two`");
  });
  test("work on the other port, on the deck, or none leaves them", () => {
    for (const work of ["Exhaust ports: [ Bowls opened ]", "Deck: [ Cut 0.010 ]", "Chambers: [ Polished ]"])
      expect(modelOf(jobWith(stages(40, 40), `work: { ${work} }`)).codes).toEqual([]);
  });
  test("work that names no side touches both", () => {
    expect(modelOf(jobWith(stages(40, 40), "work: { Ports: [ Blended ] }")).codes).toEqual(["model/stale-dimension"]);
    expect(modelOf(jobWith(stages(40, 40), "work: { Head: [ Intake bowls opened ] }")).codes).toEqual([
      "model/stale-dimension",
    ]);
  });
  test("a flow that may have changed: asked of the first stage flowed in which they held", () => {
    const third = `  - name: Three\n    flow: |\n${sweep(6, 42, 84)}\n`;
    const { stages: built } = modelOf(jobWith(stages(40, 42) + third)).model;
    const aging = (k: number) =>
      built[k]?.ports.intake?.staleIfChanged?.map(({ keys, since }) => [since.name, ...keys]);
    expect(built.map((_, k) => aging(k))).toEqual([
      undefined,
      [["One", "pinch", "port_volume"]],
      [
        ["Two", "throat"],
        ["One", "pinch", "port_volume"],
      ],
    ]);
  });
  test("a stage that repeats another carries no work", () => {
    const again = stages(40, 42).replace("name: Two\n", "name: Two\n    repeats: One\n");
    expect(modelOf(jobWith(again, "work: { Intake ports: [ Bowls opened ] }")).codes).toEqual([]);
  });
});
