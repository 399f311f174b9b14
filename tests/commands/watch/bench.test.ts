import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import type { BenchAct } from "../../../src/commands/take/bench-act.ts";
import { applyEdit } from "../../../src/commands/take/edit-readings.ts";
import type { BenchChoice, BenchView } from "../../../src/commands/watch/bench-messages.ts";
import { benchOf, enterAtBench } from "../../../src/commands/watch/bench-of.ts";
import { planBench } from "../../../src/commands/watch/bench-plan.ts";
import { isBench, isEnter } from "../../../src/commands/watch/bench-request.ts";
import { disk } from "../../../src/io/disk.ts";
import { scratch } from "../../cli/run.ts";

const JOB = `job: "1"
issued: 2026-03-18
draft: true
customer: { name: H. Ashgrove }
head: { name: Two-valve four }
units: { length: in, volume: cc, flow: cfm, pressure: inH2O }
bench: { test_pressure: 28 }
stages:
  - name: As received
    intake:  { valve: 1.654, stem: 0.315, throat: 1.400 }
    exhaust: { valve: 1.378, stem: 0.315, throat: 1.160 }
    flow: |
      lift   intake  exhaust
      0.100    40.1     33.0
      0.200    78.4     63.1
      0.300   111.5     84.0
      0.400   135.0     97.2
      0.500   146.3    103.4
  - name: Finished
`;
const folder = scratch();
mkdirSync(folder, { recursive: true });
writeFileSync(join(folder, "1.yaml"), JOB);
const context = { job: "1.yaml", io: disk, cwd: folder };
const INTAKE: BenchChoice = { stage: "Finished", side: "intake" };

const view = (text = JOB, choice = INTAKE): BenchView => benchOf(text, choice, context);
function enter(text: string, act: Partial<BenchAct> & { readonly typed: string }, choice = INTAKE) {
  const { next } = view(text, choice).plan;
  const whole = {
    kind: "reading",
    side: choice.side,
    lift: next?.lift ?? "",
    again: next?.again ?? false,
    ...act,
  } as BenchAct;
  const answer = enterAtBench({ text, choice, act: whole }, context);
  if ("fault" in answer) throw new Error(answer.fault);
  return { text: applyEdit(text, answer.edit), bench: answer.bench };
}
const enterAll = (text: string, all: readonly string[], choice = INTAKE) =>
  all.reduce((now, typed) => enter(now, { typed }, choice).text, text);
const RISE = ["42.1", "82.3", "117.0", "141.7", "153.6"];

test("the first stage without readings is offered, with the lifts of the stage before", () => {
  expect(view(JOB, { side: "intake" })).toMatchObject({
    stage: "Finished",
    units: { lift: "in", flow: "cfm" },
    draft: true,
    title: "1 Two-valve four",
  });
  expect(view().plan).toMatchObject({
    lifts: ["0.100", "0.200", "0.300", "0.400", "0.500"],
    next: { lift: "0.100", again: false },
  });
});

test("a sweep goes up, and again from the top down; nothing is asked for after three repeats", () => {
  const text = enterAll(JOB, RISE);
  const { plan } = view(text);
  expect(plan.next).toEqual({ lift: "0.500", again: true });
  const again = enterAll(text, ["153.4", "141.6", "117.2"]);
  expect(view(again).plan.next).toBeUndefined();
  expect(
    view(again)
      .rows.filter(({ rises }) => !rises)
      .map(({ lift }) => lift),
  ).toEqual([plan.again[0], plan.again[1], plan.again[2]]);
  expect(view(again).problems.filter(({ severity }) => severity === "error")).toEqual([]);
});

test("of the stage before only the lifts that have been entered are told", () => {
  expect(view().before).toBeUndefined();
  const { bench } = enter(JOB, { typed: "42.1" });
  expect(bench.before).toEqual({
    stage: "As received",
    points: [{ lift: 0.1, flow: expect.closeTo(40.1, 6), kind: "good" }],
  });
  expect(JSON.stringify(bench)).not.toMatch(/78\.4|111\.5|135\.0|146\.3/);
  expect(bench.early).toBe(true);
});

test("swapped digits are one verdict, with the number that was meant", () => {
  const text = enterAll(JOB, RISE.slice(0, 3));
  const { bench, text: slipped } = enter(enterAll(text, ["147.1"]), { typed: "153.6" });
  const flagged = bench.rows.filter(({ cells }) => cells.intake?.verdict);
  expect(flagged).toEqual([]);
  const wrong = slipped.replace("117.0", "171.0");
  const found = view(wrong).rows.filter(({ cells }) => cells.intake?.verdict);
  expect(found.map(({ lift, cells }) => [lift, cells.intake?.verdict?.level, cells.intake?.verdict?.meant])).toEqual([
    ["0.300", "off", "117.0"],
  ]);
  expect(found[0]?.cells.intake?.verdict?.words).toContain("171.0");
});

test("an impossible reading is kept and flagged as such, and its lifts and rows stay", () => {
  const { bench } = enter(enterAll(JOB, RISE.slice(0, 4)), { typed: "1536" });
  expect(bench.rows.at(-1)?.cells.intake).toMatchObject({ typed: "1536", verdict: { level: "impossible" } });
  expect(bench.plan.lifts).toHaveLength(5);
});

test("the other side follows in the same rows, and a skipped lift is not asked for", () => {
  const choice: BenchChoice = { stage: "Finished", side: "exhaust", skipped: ["0.200"] };
  const text = enterAll(enterAll(JOB, RISE), ["34.7", "88.2"], choice);
  expect(text.split("\n").slice(-6)).toEqual([
    "      0.100    42.1     34.7",
    "      0.200    82.3        -",
    "      0.300   117.0     88.2",
    "      0.400   141.7        -",
    "      0.500   153.6        -",
    "",
  ]);
});

test("a text that is no job, a table in a file, a product: why, and no entry", () => {
  expect(view("job: [").fault).toBeDefined();
  expect(
    enterAtBench({ text: "job: [", choice: INTAKE, act: { kind: "reason", row: 0, words: "x" } }, context),
  ).toHaveProperty("fault");
  expect(view(`${JOB}    runs: [ { file: bench/a.csv } ]\n`).fault).toContain("bench/a.csv");
});

test("lifts to measure again: the report's, the highest first; an offer where the bench states its spread", () => {
  const rows = ["0.1", "0.2", "0.3", "0.4", "0.5"].map((lift) => ({
    lift,
    rises: true,
    cells: { intake: { typed: "1" } },
  }));
  const input = { lifts: [], rows, side: "intake", report: [0.2, 0.4], stated: true, skipped: [] } as const;
  expect(planBench(input)).toMatchObject({
    again: ["0.5", "0.4", "0.3", "0.2"],
    offered: true,
    next: { lift: "0.5", again: true },
  });
});

test("only whole requests are taken", () => {
  const good = { text: "", choice: { side: "intake" } };
  expect(isBench(good)).toBe(true);
  for (const choice of [
    undefined,
    {},
    { side: "up" },
    { side: "intake", run: -1 },
    { side: "intake", skipped: [1] },
    { side: "intake", stage: 1 },
  ])
    expect(isBench({ text: "", choice })).toBe(false);
  expect(isEnter({ ...good, act: { kind: "cell", row: 0, side: "intake", typed: "1" } })).toBe(true);
  for (const act of [
    undefined,
    { kind: "cell", row: 1.5, side: "intake", typed: "1" },
    { kind: "reading", side: "intake", typed: "1" },
    { kind: "x" },
  ])
    expect(isEnter({ ...good, act })).toBe(false);
});
