import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { checkEachRule } from "../../../src/figures/checks/check-figures.ts";
import { computeFigures } from "../../../src/figures/compute-figures.ts";
import { demoFigures } from "../demo-figures.ts";
import { inclined } from "../demo-heads.ts";
import { inches, inchesOfWater, millimetres, modelOf, type Row, type Sketch } from "../model-fixture.ts";
import { workOutText } from "../work-out.ts";

const codesOf = (sketch: Sketch) => {
  const model = modelOf(sketch);
  return checkEachRule(model, computeFigures(model)).warnings.map(({ code }) => code.replace("figures/", ""));
};
const hintsOf = (sketch: Sketch) => {
  const model = modelOf(sketch);
  return checkEachRule(model, computeFigures(model)).warnings.map(({ hint }) => hint ?? "");
};

describe("no warning is false on a demo job", () => {
  test.each(demoFigures)("$name", ({ codes }) => expect(codes).toEqual([]));
  test("but a head flowed at another pressure, over another bore, says so once for both sides", () => {
    const [, finished] = inclined;
    const other = { ...finished!, bench: { testPressure: inchesOfWater(25), boreFixture: millimetres(90) } };
    const model = modelOf({
      lifts: "mm",
      bench: { boreFixture: millimetres(88) },
      stages: [finished!],
      compared: [{ label: "Early casting", stage: other }],
    });
    const { warnings } = checkEachRule(model, computeFigures(model));
    const told = warnings.filter(({ code }) => code === "figures/unlike-conditions");
    expect(told.map(({ message }) => message.replaceAll("\u00a0", " "))).toEqual([
      "intake and exhaust: Early casting and Finished are compared although conditions differ: test pressure 25.0 inH₂O against 28.0 inH₂O, bore fixture 90.00 mm against 88.00 mm",
    ]);
  });
});

describe("warnings that the text itself raises, and their near misses, the whole way", () => {
  const SHOP =
    "shop: { name: Quayside Heads }\nunits: { length: in, flow: cfm, pressure: inH2O }\nbench: { test_pressure: 28 }\n";
  const job = (lifts: readonly number[], condition = "clean") => `job: J-1
issued: 2026-03-18
customer: { name: A. Miller }
head:
  name: Wedge
  condition: ${condition}
stages:
  - name: As received
    intake: { valve: 1.654 }
    flow: |
      lift intake
${lifts.map((lift, k) => `      ${lift} ${[40, 78, 111, 134][k]}`).join("\n")}
`;
  const codes = (...given: Parameters<typeof job>) => workOutText(job(...given), SHOP).codes;
  // 0.6 of a valve of 1.654 in is 0.9924 in: no valve opens so far, but 2.5 mm is a first step.
  test("lifts that no valve has, and lifts that look like millimetres under inches", () => {
    expect(() => codes([0.2, 0.4, 0.6, 0.993])).toThrow(
      "job/lift]: a lift of 0.993 in is more than 0.6 of the valve's diameter",
    );
    expect(codes([0.2, 0.4, 0.6, 0.992])).toEqual([]);
    expect(() => codes([2.5, 5, 7.5, 10])).toThrow("job/lift-unit]: these lifts look like millimetres under inches");
  });
  // 0.035 of it, 42.01 mm, is 1.470 mm: what is left of half an inch when it is read as half a millimetre.
  test("lifts that look like inches under millimetres", () => {
    const under = (last: number, before = [0.4, 0.8, 1.2]) => {
      const text = job([...before, last]).replace("lift intake", "lift/mm intake");
      return workOutText(
        text.replace(/ (40|78|111|134)$/gm, (flow) => ` ${Number(flow) / 5}`),
        SHOP,
      ).codes;
    };
    expect(under(1.47)).toContain("job/lift-unit");
    expect(under(1.471)).not.toContain("job/lift-unit");
    // The first rows of a table of millimetres are as low.
    expect(under(1.47, [0.5, 1])).not.toContain("job/lift-unit");
  });
  test("a # right after plain text", () => {
    expect(codes([0.1, 0.2, 0.3, 0.4], "cracked at #3 cylinder")).toContain("source/lost-text");
    expect(codes([0.1, 0.2, 0.3, 0.4], '"cracked at #3 cylinder"')).toEqual([]);
  });
});

describe("thresholds that are told by counting or by a proposal", () => {
  const rows = (share: readonly number[]): Row[] =>
    share.map((one, k) => [2 * (k + 1), 40 * (k + 1), 40 * (k + 1) * one]);
  const columns = (share: readonly number[]): Sketch => ({
    lifts: "mm",
    stages: [
      {
        intake: { valves: [{ head: millimetres(44) }] },
        exhaust: { valves: [{ head: millimetres(38) }] },
        flow: rows(share),
      },
    ],
  });
  test("columns swapped: the exhaust above the intake at most lifts, not at half of them", () => {
    expect(codesOf(columns([1.05, 1.05, 1.05, 0.9]))).toContain("columns-swapped");
    expect(codesOf(columns([1.05, 1.05, 0.9, 0.9]))).not.toContain("columns-swapped");
  });
  test("and only with the smaller valve", () => {
    const [stage] = columns([1.05, 1.05, 1.05, 0.9]).stages!;
    const larger = { ...stage!, exhaust: { valves: [{ head: millimetres(44) }] } };
    expect(codesOf({ lifts: "mm", stages: [larger] })).not.toContain("columns-swapped");
  });

  // A straight start of 20 cfm a millimetre: 100 at 5 mm is the trend, and 10.1 for 101 a slip of the pen.
  const slip = (typed: string): Sketch => ({
    lifts: "mm",
    stages: [
      {
        intake: { valves: [{ head: millimetres(44) }] },
        flow: [2, 3, 4, 5, 6, 7, 8].map((lift): Row => [lift, lift === 5 ? typed : 20 * lift]),
      },
    ],
  });
  test("a slip is proposed when it lands within 1.5 % of the trend, and not beyond", () => {
    expect(hintsOf(slip("10.15"))).toEqual([expect.stringMatching(/^did you mean 101\.5/)]);
    expect(hintsOf(slip("10.16"))).toEqual([expect.not.stringContaining("did you mean")]);
    expect(hintsOf(slip("985"))).toEqual([expect.stringMatching(/^did you mean 98\.5/)]);
    expect(hintsOf(slip("984"))).toEqual([expect.not.stringContaining("did you mean")]);
  });

  const inch = (by: number): Sketch => ({
    stages: [
      {
        intake: { valves: [{ head: inches(1.7) }] },
        flow: [0.05, 0.1, 0.15, 0.2].map((lift): Row => [lift + by, 400 * lift]),
      },
    ],
  });
  test("a dial 0.009 in off is told, one 0.007 in off is not", () => {
    expect(codesOf(inch(0.009))).toEqual(["zero-flow"]);
    expect(codesOf(inch(0.007))).toEqual([]);
    expect(codesOf(inch(-0.009))).toContain("zero-flow");
    expect(codesOf(inch(-0.007))).not.toContain("zero-flow");
  });
});

test("heads of every kind, one side alone, raise nothing", () => {
  for (const side of ["intake", "exhaust"] as const) {
    const stages = inclined.map((stage) => ({
      ...stage,
      flow: stage.flow!.map((row): Row => (side === "intake" ? [row[0], row[1]] : [row[0], undefined, row[2]])),
    }));
    expect(codesOf({ lifts: "mm", stages })).toEqual([]);
  }
});

describe("rows and lifts", () => {
  const flows = [20, 40, 60, 80, 100, 115, 128];
  const rows = (change: (row: Row, k: number) => Row): Sketch => ({
    lifts: "mm",
    stages: [
      {
        intake: { valves: [{ head: millimetres(44) }] },
        flow: flows.map((flow, k) => change([k + 1, flow, flow * 0.8], k)),
      },
    ],
  });
  test("wrong-row: both sides off alike are one finding at the lift, and its own side's is not", () => {
    const both = rows((row, k) => (k === 3 ? [4, 60, 48] : row));
    expect(codesOf(both)).toContain("wrong-row");
    expect(codesOf(rows((row, k) => (k === 3 ? [4, 60, row[2]] : row)))).not.toContain("wrong-row");
  });
  test("lift-twice: one typed as its neighbour, where the series misses it; a repeat beside a whole series is none", () => {
    expect(codesOf(rows((row, k) => (k === 3 ? [3, row[1], row[2]] : row)))).toContain("lift-twice");
    const repeated = rows((row) => row);
    const [stage] = repeated.stages!;
    const flow = stage!.flow!.flatMap((row) => [row, row]);
    expect(codesOf({ ...repeated, stages: [{ ...stage!, flow }] })).not.toContain("lift-twice");
  });
});

test("no rule of the figures is without a test of its own", () => {
  const rules = new URL("../../../src/figures/checks/", import.meta.url);
  const written = readdirSync(rules).flatMap((file) => [
    ...readFileSync(new URL(file, rules), "utf8").matchAll(/"figures\/([a-z-]+)"/g),
  ]);
  const tests = ["warnings.test.ts", "warnings-list.test.ts", "stale-dimensions.test.ts"].map((file) =>
    readFileSync(new URL(file, import.meta.url), "utf8"),
  );
  const codes = [...new Set(written.map((match) => match[1]!))];
  expect(codes.length).toBeGreaterThan(20);
  expect(codes.filter((code) => !tests.some((text) => text.includes(code)))).toEqual([]);
});
