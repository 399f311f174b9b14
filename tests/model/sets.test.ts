import { describe, expect, test } from "vitest";
import { jobWith, modelOf, sweep } from "./model-of.ts";

const run = (head: string, ...flows: readonly number[]) => `      - ${head}\n        flow: |\n${sweep(10, ...flows)}\n`;
const setsOf = (runs: string, more = "") =>
  modelOf(jobWith(`  - name: One\n    runs:\n${runs}`, more)).model.stages[0]?.sets ?? [];
const PIPE = "bench: { exhaust_pipe: { diameter: 1.75, length: 8 } }";

describe("runs sorted into sets", () => {
  test("only readings of like conditions are repeats of each other: cylinders, hands and mounts are one set", () => {
    const sets = setsOf(
      run("cylinder: 1", 40, 80) + run("mount: 2", 41, 81) + run("cylinder: 5\n        hand: end", 39, 78),
    );
    expect(sets.map((set) => set.name)).toEqual(["bare"]);
    expect(sets[0]?.runs.map(({ cylinder, mount, hand }) => [cylinder, mount, hand])).toEqual([
      [1, 1, undefined],
      [1, 2, undefined],
      [5, 1, "end"],
    ]);
  });
  test("sets are named by what differs between them; the first leads", () => {
    const sets = setsOf(run("cylinder: 1", 40) + run(PIPE, 45) + run("bench: { attached: { intake: manifold } }", 38));
    expect(sets.map((set) => [set.name, set.named])).toEqual([
      ["bare", false],
      ["with pipe", false],
      ["with manifold", false],
    ]);
  });
  test("another pressure is another set", () => {
    expect(setsOf(run("cylinder: 1", 40) + run("bench: { test_pressure: 10 }", 24)).map((set) => set.name)).toEqual([
      "at 28 inH2O",
      "at 10 inH2O",
    ]);
  });
  test("another fixture is named in the job's own unit", () => {
    const sets = setsOf(run("bench: { bore_fixture: 3.45 }", 40) + run("bench: { bore_fixture: 90 mm }", 41));
    expect(sets.map((set) => set.name)).toEqual(["fixture 3.45 in", "fixture 3.543 in"]);
  });
  test("`set` names one; `headline_set` leads", () => {
    const sets = setsOf(
      run(`set: Long pipe\n        ${PIPE}`, 45) + run("cylinder: 1", 40),
      "report: { headline_set: Bare }",
    );
    expect(sets.map((set) => [set.name, set.named])).toEqual([
      ["bare", false],
      ["Long pipe", true],
    ]);
  });
  test("a headline set that is not there is said", () => {
    expect(
      modelOf(jobWith(`  - name: One\n    runs:\n${run("cylinder: 1", 40)}`, "report: { headline_set: with plenum }"))
        .codes,
    ).toEqual(["model/headline-set"]);
  });
  test("every run is in exactly one set", () => {
    const sets = setsOf(
      run("cylinder: 1", 40) + run(PIPE, 45) + run("cylinder: 2", 41) + run(`cylinder: 2\n        ${PIPE}`, 46),
    );
    expect(sets.map((set) => set.runs.map((each) => each.cylinder))).toEqual([
      [1, 2],
      [1, 2],
    ]);
  });
});

describe("the nearer bench wins, key by key", () => {
  const text = jobWith(
    `  - name: One\n    bench: { air: { temperature: 66 } }\n    runs:\n${run("bench: { accuracy: 2 %, repeatability: 1 % }", 40)}${run("cylinder: 2", 41)}`,
    "bench: { test_pressure: 25, air: { temperature: 70, pressure: 29.8 inHg }, repeatability: { spread: 1.2 %, of: 5 }, attached: { intake: none } }",
  );
  const { sets = [], bench } = modelOf(text).model.stages[0] ?? {};
  test("shop < job < stage < run", () => {
    const [near, far] = sets[0]?.runs ?? [];
    expect(near?.bench.accuracy).toBeCloseTo(0.02, 12);
    expect(far?.bench.accuracy).toBeCloseTo(0.015, 12); // the shop's
    expect(far?.bench.testPressure).toBeCloseTo(25 * 249.08891, 2); // the job's
    expect(bench?.air?.temperature).toBeCloseTo((66 + 459.67) * (5 / 9), 9); // the stage's
    expect(bench?.air?.pressure).toBeCloseTo(29.8 * 3386.389, 0); // the job's, beside it
  });
  test("maps merge key by key, single values replace: a plain ± a spread", () => {
    expect(sets[0]?.runs[0]?.bench.repeatability).toEqual({ kind: "expanded", value: 0.01 });
    expect(sets[0]?.runs[1]?.bench.repeatability).toEqual({ kind: "range", spread: 0.012, of: 5 });
  });
  test("`none` is nothing attached", () => expect(bench?.attached).toEqual({}));
  test("a column of the table wins over all", () => {
    const column = modelOf(
      jobWith("  - name: One\n    flow: |\n      lift intake pressure\n      0.1 40 25\n      0.2 70 -\n"),
    ).model;
    const pressures = column.stages[0]?.sets[0]?.runs[0]?.readings.intake.map((each) => each.pressure / 249.08891);
    expect(pressures?.[0]).toBeCloseTo(25, 5);
    expect(pressures?.[1]).toBeCloseTo(28, 5);
  });
});

describe("percent benches", () => {
  const bench = (ranges: string) => `bench: { reads: percent, ranges: ${ranges} }`;
  const readings = (table: string, ranges: string) =>
    modelOf(jobWith(`  - name: One\n    flow: |\n${table}`, bench(ranges))).model.stages[0]?.sets[0]?.runs[0]?.readings;
  const CFM = 4.719474e-4;
  test("a reading is its share of the range's flow, each side its own", () => {
    const both = readings(
      "      lift intake exhaust range_i range_e\n      0.1  50.0 40 3 4\n",
      '{ "3": { intake: 96 cfm, exhaust: 98 cfm }, "4": { intake: 150 cfm, exhaust: 155 cfm } }',
    );
    expect(both?.intake[0]?.flow).toBeCloseTo(48 * CFM, 8);
    expect(both?.exhaust[0]?.flow).toBeCloseTo(62 * CFM, 8);
    expect(both?.intake[0]?.resolution).toBeCloseTo(0.001 * 96 * CFM, 10);
  });
  test("a single range need not be named", () => {
    expect(readings("      lift intake\n      0.1 50\n", "{ one: { intake: 96 cfm } }")?.intake[0]?.flow).toBeCloseTo(
      48 * CFM,
      8,
    );
  });
});

describe("other heads", () => {
  const other = jobWith(`  - name: One\n    by: Somebody\n    runs:\n${run("cylinder: 1", 40)}`, "may_compare: yes");
  test("who measured them stays there", () => {
    const { model } = modelOf(`${jobWith("  - { name: One }\n")}compare: [ { job: b.yaml, label: Other } ]\n`, {
      "/shop/b.yaml": other,
    });
    expect(model.compared[0]?.label).toBe("Other");
    expect(JSON.stringify(model.compared)).not.toMatch(/Somebody|Miller|J-1/);
  });
  const product = "product: { part: P-1, name: Wedge, revision: C }\nissued: 2026-04-01\nsamples: [ b.yaml, c.yaml ]\n";
  test("samples flowed alike make a product", () => {
    const { model, codes } = modelOf(product, { "/shop/b.yaml": other, "/shop/c.yaml": other });
    expect(codes).toEqual([]);
    expect(model.samples).toHaveLength(2);
    expect(model.identity).toMatchObject({ kind: "product", number: "P-1", title: "Wedge", revision: "C" });
  });
  test("samples flowed unlike are refused", () => {
    const unlike = other.replace("may_compare: yes", "bench: { test_pressure: 10 }");
    const { diagnostics } = modelOf(product, { "/shop/b.yaml": other, "/shop/c.yaml": unlike });
    expect(diagnostics.map((each) => [each.severity, each.code, each.note])).toEqual([
      ["error", "model/samples-unlike", "unlike: the test pressure"],
    ]);
  });
});
