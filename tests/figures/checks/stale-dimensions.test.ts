import { expect, test } from "vitest";
import { evaluateJob } from "../../../src/pipeline/evaluate.ts";
import { memoryWorld } from "../../project/memory-world.ts";

const LIFTS = [0.1, 0.2, 0.3, 0.4];
const FLOWS = [40, 80, 112, 134];
/** Each lift twice, `factor` times the flow of the first stage. */
const flow = (factor: number) =>
  [0, 0.1]
    .flatMap((more) => LIFTS.map((lift, k) => `      ${lift.toFixed(3)} ${(FLOWS[k]! * factor + more).toFixed(1)}`))
    .join("\n");
const stage = (name: string, factor: number, sizes = "") =>
  `  - name: ${name}\n${sizes}    flow: |\n      lift intake\n${flow(factor)}\n`;
const SIZES = "    intake: { valve: 1.7, throat: 1.45, pinch: 1.5 }\n";

function evaluate(stages: string, more = "") {
  const text = `job: J-1
issued: 2026-03-18
customer: { name: A. Miller }
head: { name: Wedge }
units: { length: in, area: in2, flow: cfm, pressure: inH2O }
bench: { test_pressure: 28${more} }
stages:
${stages}`;
  const { drawable, diagnostics } = evaluateJob("/shop/a.yaml", {}, memoryWorld({ "/shop/a.yaml": text }));
  const told = diagnostics.filter(({ code }) => code.endsWith("stale-dimension"));
  return {
    told: told.map(({ code, note, at }) => ({ code, note, at })),
    ratios: drawable?.figures.stages.map(({ intake }) => intake?.throat_ratio?.toFixed(3)),
  };
}

test("a flow that has not clearly changed leaves inherited sizes as they are", () => {
  // 2.5 % is more than the allowance for re-mounting, and less than the ± of the change.
  const { told, ratios } = evaluate(stage("One", 1, SIZES) + stage("Two", 1.025));
  expect(told).toEqual([]);
  expect(ratios).toEqual(["0.853", "0.853"]);
});

test("over a clearly changed flow nothing is made from them, and the warning has its place", () => {
  const { told, ratios } = evaluate(stage("One", 1, SIZES) + stage("Two", 1.06));
  expect(told.map(({ code, note }) => [code, note])).toEqual([
    ["figures/stale-dimension", "its flow has clearly changed since `One`, so nothing is made from them"],
  ]);
  expect(told[0]?.at).toBeDefined();
  expect(ratios).toEqual(["0.853", undefined]);
});

test("small steps add up: the change counts since the stage where the size was measured", () => {
  const steps = stage("One", 1, SIZES) + stage("Two", 1.025) + stage("Three", 1.05);
  expect(evaluate(steps).ratios).toEqual(["0.853", "0.853", undefined]);
  const again = stage("One", 1, SIZES) + stage("Two", 1.06) + stage("Three", 1.061);
  expect(evaluate(again).ratios).toEqual(["0.853", undefined, undefined]);
});

test("where nothing is judged, nothing is said to have changed", () => {
  const once = (name: string, factor: number, sizes = "") =>
    stage(name, factor, sizes)
      .split("\n")
      .filter((_, k, all) => k < all.length - 1 - LIFTS.length)
      .concat("")
      .join("\n");
  expect(evaluate(once("One", 1, SIZES) + once("Two", 1.1)).told).toEqual([]);
});
