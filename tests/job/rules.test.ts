import { describe, expect, test } from "vitest";
import { render } from "../../src/diagnostics/render.ts";
import { readJob } from "../../src/job/read-job.ts";
import { readShop } from "../../src/job/read-shop.ts";
import { FULL_JOB, FULL_PRODUCT, FULL_SHOP } from "./full-job.ts";

type Case = {
  readonly name: string;
  readonly code: string;
  readonly severity?: "warning";
  /** The change to the valid job of full-job.ts. */
  readonly bad: readonly [from: string | RegExp, to: string];
  /** A similar change that is valid. */
  readonly near?: readonly [from: string | RegExp, to: string];
};

const CASES: readonly Case[] = [
  {
    name: "not a number",
    code: "units/not-a-number",
    bad: ["throat: 1.525", "throat: wide"],
    near: ["throat: 1.525", "throat: 1 1/2 in"],
  },
  {
    name: "unknown unit",
    code: "units/unknown-unit",
    bad: ["throat: 1.525", "throat: 1.525 inz"],
    near: ["throat: 1.525", "throat: 38.7 MM"],
  },
  {
    name: "wrong kind of unit",
    code: "units/wrong-kind",
    bad: ["port_length: 4.00", "port_length: 4.00 cc"],
    near: ["port_length: 4.00", "port_length: 10 cm"],
  },
  {
    name: "negative dimension",
    code: "job/negative",
    bad: ["rod_length: 5.390", "rod_length: -5.390"],
    near: ["rod_length: 5.390", "rod_length: 5.39"],
  },
  {
    name: "a length beyond any head",
    code: "job/out-of-range",
    bad: ["stroke: 2.953", "stroke: 4000 in"],
    near: ["stroke: 2.953", "stroke: 99 mm"],
  },
  {
    name: "zero dimension",
    code: "job/zero",
    bad: ["stroke: 2.953", "stroke: 0"],
    near: ["margin: 0.045", "margin: 0"],
  },
  { name: "a unit that is none", code: "units/unknown-unit", bad: ["flow: cfm, pressure", "flow: cfmm, pressure"] },
  { name: "unknown key", code: "job/unknown-key", bad: ["remount: 1.4 %", "remuont: 1.4 %"] },
  {
    name: "unknown key near a missing one is one slip",
    code: "job/unknown-key",
    bad: ["issued: 2026-03-18", "isued: 2026-03-18"],
  },
  { name: "missing key", code: "job/missing", bad: ["issued: 2026-03-18\n", ""] },
  { name: "missing customer", code: "job/missing", bad: [/customer: \{.*\n/, ""] },
  { name: "missing name of a stage", code: "job/missing", bad: ["- name: Finished\n    date", "- date"] },
  {
    name: "a map where a list is wanted",
    code: "job/shape",
    bad: ["parts: [ { part: Valve guide, quantity: 12, note: bronze } ]", "parts: { part: Valve guide }"],
  },
  {
    name: "a word that is none",
    code: "job/word",
    bad: ["embed: readings", "embed: reading"],
    near: ["embed: readings", "embed: none"],
  },
  { name: "a single value where a map is wanted", code: "job/word", bad: ["seat: not measured", "seat: 45 deg"] },
  { name: "a list where a map is wanted", code: "job/shape", bad: ["seat: not measured", "seat: [45 deg]"] },
  { name: "a number where a word is wanted", code: "job/word", bad: ["exhaust_pipe: none", "exhaust_pipe: 1.75"] },
  {
    name: "neither true nor false",
    code: "job/word",
    bad: ["strict: false", "strict: perhaps"],
    near: ["strict: false", "strict: true"],
  },
  { name: "a map where a word is wanted", code: "job/shape", bad: ["delivered: assembled", "delivered: {}"] },
  {
    name: "not a place in a picture",
    code: "job/focus",
    bad: ["focus: [0.5, 0.4]", "focus: [0.5, 1.4]"],
    near: ["focus: [0.5, 0.4]", "focus: [0, 1]"],
  },
  { name: "not a whole number", code: "job/count", bad: ["cylinders: 6", "cylinders: six"] },
  {
    name: "a date that does not exist",
    code: "job/date",
    bad: ["received: 2026-02-20", "received: 2026-02-30"],
    near: ["received: 2026-02-20", "received: 2024-02-29"],
  },
  { name: "a date day first", code: "job/date", bad: ["received: 2026-02-20", "received: 20.02.2026"] },
  {
    name: "throat wider than valve less seat",
    code: "job/throat-over-valve",
    bad: ["throat: 1.525", "throat: 1.663"],
    near: ["throat: 1.525", "throat: 1.661"],
  },
  {
    name: "stem as wide as the throat",
    code: "job/stem-over-throat",
    bad: ["stem: 0.315, throat: 1.400", "stem: 1.400, throat: 1.400"],
    near: ["stem: 0.315, throat: 1.400", "stem: 1.390, throat: 1.400"],
  },
  {
    name: "valve as wide as the fixture",
    code: "job/valve-over-fixture",
    bad: ["bore_fixture: 3.450", "bore_fixture: 1.700"],
    near: ["bore_fixture: 3.450", "bore_fixture: 1.740"],
  },
  { name: "unlike valves miscounted", code: "job/valve-count", bad: ["valves: 2", "valves: 3"] },
  {
    name: "an upright seat",
    code: "job/seat-angle",
    bad: ["bottom: [60 deg,", "bottom: [90 deg,"],
    near: ["bottom: [60 deg,", "bottom: [89 deg, 85 deg,"],
  },
  {
    name: "a pinch without height",
    code: "job/pinch-shape",
    bad: ["exhaust: { port_volume: 60, pinch: { area: 1.2 } }", "exhaust: { port_volume: 60, pinch: { width: 1.2 } }"],
  },
  {
    name: "a pinch stated twice",
    code: "job/pinch-shape",
    bad: ["pinch: { area: 1.2 }", "pinch: { area: 1.2, width: 1, height: 1.2 }"],
  },
  {
    name: "a corner too large",
    code: "job/corner",
    bad: ["corner: 0.20, where", "corner: 0.47, where"],
    near: ["corner: 0.20, where", "corner: 0.46, where"],
  },
  {
    name: "two keys for one thing",
    code: "job/one-of-two",
    bad: ["dish: 5 cc,", "dish: 5 cc, dome: 2 cc,"],
    near: ["dish: 5 cc,", "dome: 2 cc,"],
  },
  {
    name: "flow and runs",
    code: "job/one-of-two",
    bad: ["    runs:", "    flow: |\n      lift intake\n      0.1 20\n    runs:"],
  },
  {
    name: "a run without readings",
    code: "job/run-without-readings",
    bad: [", file: bench/2026-014-finished-1.csv", ""],
  },
  {
    name: "job and product",
    code: "job/job-and-product",
    bad: ["issued: 2026-03-18", "product: { part: A, name: B }\nsamples: [ b.yaml ]\nissued: 2026-03-18"],
  },
  { name: "samples in a job", code: "job/samples-in-job", bad: ["not_done:", "samples: [ a.yaml ]\nnot_done:"] },
  { name: "two heads of one id", code: "job/head-id", bad: ["id: R", "id: L"] },
  { name: "a cylinder in two heads", code: "job/head-cylinder", bad: ["[2, 4, 6]", "[2, 4, 5]"] },
  {
    name: "two stages of one name",
    code: "job/stage-name",
    bad: ["- name: As received again\n    repeats: As received", "- name: as received"],
  },
  {
    name: "repeats a stage that is not there",
    code: "job/repeats-missing",
    bad: ["repeats: As received", "repeats: As recieved"],
  },
  { name: "repeats itself", code: "job/repeats-itself", bad: ["repeats: As received", "repeats: As received again"] },
  { name: "repeats a later stage", code: "job/repeats-later", bad: ["repeats: As received", "repeats: Finished"] },
  {
    name: "a revision without reason",
    code: "job/revision-reason",
    bad: [/because:.*\n/, ""],
    near: [/revision: 2\nreplaces:.*\nbecause:.*\n/, "revision: 1\n"],
  },
  {
    name: "bare cam lift",
    code: "job/cam-lift",
    bad: ["net_lift: 0.420", "lift: 0.420"],
    near: ["net_lift: 0.420", "net_lift: 0.42"],
  },
  { name: "cam without lift", code: "job/cam-lift", bad: ["net_lift: 0.420, ", ""] },
  {
    name: "check lift above the cam",
    code: "job/cam-check-lift",
    bad: ["at: 0.050, of: valve", "at: 0.500, of: valve"],
    near: ["at: 0.050, of: valve", "at: 0.200, of: valve"],
  },
  {
    name: "a lash that eats the lift",
    code: "job/cam-lift",
    bad: ["lash: 0.012", "lash: 0.5"],
    near: ["lash: 0.012", "lash: 0.4"],
  },
  {
    name: "gasket stated twice",
    code: "job/gasket",
    bad: ["gasket: { bore: 3.500", "gasket: { volume: 8.9 cc, bore: 3.500"],
  },
  {
    name: "half a gasket",
    code: "job/gasket",
    bad: ["gasket: { bore: 3.500, compressed: 0.041 }", "gasket: { bore: 3.500 }"],
    near: ["gasket: { bore: 3.500, compressed: 0.041 }", "gasket: { volume: 8.9 cc }"],
  },
  { name: "speeds the wrong way round", code: "job/rpm", bad: ["from: 2500, to: 7000", "from: 7000, to: 2500"] },
  {
    name: "a rod too short",
    code: "job/rod-length",
    bad: ["rod_length: 5.390", "rod_length: 1.390"],
    near: ["rod_length: 5.390", "rod_length: 1.6"],
  },
  {
    name: "a chamber without number",
    code: "job/cylinder-key",
    bad: ["chambers: { 1: 43.0", "chambers: { front: 43.0"],
  },
  {
    name: "a valve centre of one length",
    code: "job/layout-centre",
    bad: ["intake: [ [0.78, 0.06] ]", "intake: [ [0.78] ]"],
  },
  {
    name: "a spring that is solid when fitted",
    code: "job/coil-bind",
    bad: ["coil_bind: 1.020", "coil_bind: 1.560"],
    near: ["coil_bind: 1.020", "coil_bind: 1.500"],
  },
  {
    name: "a spring that is solid at a valve's height",
    code: "job/coil-bind",
    bad: ["1E     1.548", "1E     1.020"],
    near: ["1E     1.548", "1E     1.558"],
  },
  {
    name: "a row of the valve train without a valve",
    code: "job/valve-name",
    bad: ["1E     1.548", "E1     1.548"],
    near: ["1E     1.548", "1Ea    1.548"],
  },
  {
    name: "two rows for one valve",
    code: "job/valve-twice",
    bad: ["1E     1.548", "1i     1.548"],
  },
  {
    name: "a column that a valve train has not",
    code: "job/table-column",
    bad: ["seal\n      1I", "seals\n      1I"],
  },
  {
    name: "a guide typed in millimetres under inches",
    code: "job/valve-train-odd",
    severity: "warning",
    bad: ["0.0012  0.0008", "0.0300  0.0008"],
  },
  {
    name: "a height with swapped digits",
    code: "job/valve-train-odd",
    severity: "warning",
    bad: ["1I     1.562", "1I     1.962"],
  },
  {
    name: "a valve of a cylinder that the engine has not",
    code: "job/valve-name",
    severity: "warning",
    bad: ["2Ia    1.560", "8Ia    1.560"],
  },
  {
    name: "limits the wrong way round",
    code: "job/limit-order",
    bad: ["seat_force: [80 lbf, 90 lbf]", "seat_force: [90 lbf, 80 lbf]"],
  },
  {
    name: "an open force below the seat force",
    code: "job/spring-force",
    bad: ["open_force: 215 lbf", "open_force: 48 lbf"],
  },
  {
    name: "a rate that the forces contradict",
    code: "job/spring-rate",
    severity: "warning",
    bad: ["rate: 305 lbf/in", "rate: 350 lbf/in"],
    near: ["rate: 305 lbf/in", "rate: 315 lbf/in"],
  },
  {
    name: "a rate in a unit of force",
    code: "units/wrong-kind",
    bad: ["rate: 305 lbf/in", "rate: 305 lbf"],
    near: ["rate: 305 lbf/in", "rate: 53.4 N/mm"],
  },
  {
    name: "a cut under the seat that is no angle",
    code: "units/not-a-number",
    bad: ["bottom: [60 deg,", "bottom: [round,"],
    near: ["bottom: [60 deg,", "bottom: [radius,"],
  },
  {
    name: "air pressure in the wrong unit",
    code: "job/air-pressure",
    bad: ["pressure: 29.80 inHg", "pressure: 29.80"],
    near: ["pressure: 29.80 inHg", "pressure: 101.3 kPa"],
  },
  {
    name: "humidity over the whole",
    code: "job/humidity",
    bad: ["humidity: 45 %", "humidity: 101 %"],
    near: ["humidity: 45 %", "humidity: 100 %"],
  },
  {
    name: "a percentage without its sign",
    code: "units/missing-percent",
    bad: ["humidity: 45 %", "humidity: 45"],
    near: ["humidity: 45 %", "humidity: 0.45"],
  },
  {
    name: "a volumetric meter without air",
    code: "job/meter-needs-air",
    bad: [
      /meter: orifice([\s\S]*) {2}air: .*\n([\s\S]*)bench: \{ air: \{ temperature: 66 \} \}\n/,
      "meter: volumetric$1$2\n",
    ],
    near: ["meter: orifice", "meter: volumetric"],
  },
  {
    name: "a set of unlike runs",
    code: "job/set-unlike",
    bad: ["- { cylinder: 5, hand: end", "- { set: with pipe, cylinder: 5, hand: end"],
  },
  {
    name: "a table run together",
    code: "job/table-folded",
    bad: ["repeats: As received\n    flow: |", "repeats: As received\n    flow: >"],
  },
  {
    name: "an unknown column of sections",
    code: "job/table-column",
    bad: ["at     width  height", "at     width  heihgt"],
  },
  {
    name: "a short row of sections",
    code: "job/table-row",
    bad: ["1.5    0.92   1.72    0.20    pushrod wall", "1.5    0.92"],
  },
  { name: "sections out of order", code: "job/table-order", bad: ["1.5    0.92   1.72", "0      0.92   1.72"] },
  {
    name: "a cam profile too short",
    code: "job/table-column",
    bad: ["      0        0.288\n      120      0\n", "      0        0.288\n"],
  },
  {
    name: "two columns of one name",
    code: "job/readings-column-twice",
    bad: ["lift   intake\n          0.100   44.3", "lift   lift\n          0.100   44.3"],
  },
  { name: "a row of the wrong length", code: "job/readings-row", bad: ["0.100   44.3\n", "0.100   44.3  2\n"] },
  {
    name: "percent without a range",
    code: "job/range-missing",
    bad: [
      /repeats: As received\n/,
      'repeats: As received\n    bench: { reads: percent, ranges: { "4": { intake: 150, exhaust: 150 } } }\n',
    ],
  },
  {
    name: "a range nobody stated",
    code: "job/range-unknown",
    bad: [
      /repeats: As received\n {4}flow: \|\n.*\n.*\n.*\n/,
      "repeats: As received\n    bench: { reads: percent }\n    flow: |\n      lift intake range\n      0.1  45.0   5\n",
    ],
    near: [
      /repeats: As received\n {4}flow: \|\n.*\n.*\n.*\n/,
      "repeats: As received\n    bench: { reads: percent }\n    flow: |\n      lift intake range\n      0.1  45.0   3\n",
    ],
  },
  { name: "decimal comma", code: "units/decimal-comma", bad: ["throat: 1.525", "throat: '1,525'"] },
  {
    name: "a duplicate key",
    code: "source/duplicate-key",
    bad: ["may_compare: samples only", "may_compare: samples only\nmay_compare: yes"],
  },
  {
    name: "received after issued",
    code: "job/date-order",
    severity: "warning",
    bad: ["received: 2026-02-20", "received: 2026-04-20"],
    near: ["received: 2026-02-20", "received: 2026-03-18"],
  },
  {
    name: "a certificate word",
    code: "job/certificate-word",
    severity: "warning",
    bad: ["Thin wall at cylinder 3", "Calibrated bench"],
    near: ["Thin wall at cylinder 3", "Bench checked against a plate"],
  },
  {
    name: "millimetres under inches",
    code: "job/lift-unit",
    bad: [/0\.100 {3}40\.3 {5}33\.2\n {6}0\.200 {3}78\.0 {5}63\.0/, "2.5 40.3 33.2\n      5.0 78.0 63.0"],
    near: [/0\.200 {3}78\.0/, "0.800   78.0"],
  },
  {
    name: "a chamber without its point",
    code: "job/chamber-size",
    severity: "warning",
    bad: ["chambers: { 1: 43.0, 2: 43.4 }", "chambers: { 1: 430, 2: 43.4 }"],
  },
  {
    name: "a test pressure in the wrong unit",
    code: "job/test-pressure-size",
    severity: "warning",
    bad: ["test_pressure: 25\n", "test_pressure: 25 psi\n"],
  },
  { name: "no sheet", code: "job/empty", bad: ["sheet: [handover, attachment]", "sheet: []"] },
  {
    name: "a stage dated before the one above it",
    code: "job/stage-order",
    bad: ["date: 2026-03-02", "date: 2026-02-20"],
    near: ["date: 2026-03-02", "date: 2026-02-21"],
  },
  {
    name: "a seat without its angle",
    code: "job/seat-without-angle",
    severity: "warning",
    bad: ["seat: not measured", "seat: { width: 0.060 }"],
  },
  {
    name: "a duration of which nobody says where",
    code: "job/cam-without-of",
    severity: "warning",
    bad: ["at: 0.050, of: valve", "at: 0.050"],
    near: ["at: 0.050, of: valve", "at: 0.050, of: follower"],
  },
  { name: "a key in the wrong place", code: "job/unknown-key", bad: ["paper: A4", "paper: A4\nstroke: 2.953"] },
];

const change = (text: string, [from, to]: readonly [string | RegExp, string]): string => {
  const changed = text.replace(from, to);
  if (changed === text) throw new Error(`nothing to change: ${from}`);
  return changed;
};
const read = (text: string) => readJob("jobs/a.yaml", text);
const show = (text: string) => render(read(text).diagnostics, new Map([["jobs/a.yaml", text]]));

describe("one bad job a rule", () => {
  test.each(CASES.map((one) => [one.name, one] as const))("%s", (_, { bad, code, severity = "error" }) => {
    const text = change(FULL_JOB, bad);
    const { diagnostics, job } = read(text);
    expect(diagnostics.map((each) => `${each.severity} ${each.code}`)).toEqual([`${severity} ${code}`]);
    expect(job === undefined).toBe(severity === "error");
    expect(show(text)).toMatchSnapshot();
  });
});

describe("a near miss raises no error", () => {
  test.each(CASES.flatMap((one) => (one.near ? [[one.name, one.near] as const] : [])))("%s", (_, near) => {
    expect(show(change(FULL_JOB, near))).toBe("");
  });
});

describe("products", () => {
  test.each([
    ["a customer", "issued: 2026-04-01", "issued: 2026-04-01\ncustomer: { name: X }", "job/job-and-product"],
    ["stages of its own", "issued: 2026-04-01", "issued: 2026-04-01\nstages: [ { name: X } ]", "job/job-and-product"],
    ["no samples", /samples: .*\n/, "", "job/missing"],
  ] as const)("%s", (_, from, to, code) => {
    expect(read(change(FULL_PRODUCT, [from, to])).diagnostics.map((each) => each.code)).toEqual([code]);
  });
});

describe("the shop", () => {
  test.each([
    ["a colour that is none", '"#1F4E5F"', "petrol", "error job/accent"],
    ["a certificate word", "ask us", "guaranteed for a year", "warning job/certificate-word"],
    [
      "air pressure",
      "test_pressure: 28, reads",
      "air: { pressure: 29.8 }, test_pressure: 28, reads",
      "error job/air-pressure",
    ],
    ["a job's key", "paper: Letter", "paper: Letter\ncustomer: { name: X }", "error job/unknown-key"],
  ] as const)("%s", (_, from, to, said) => {
    const { diagnostics } = readShop("shop.yaml", change(FULL_SHOP, [from, to]));
    expect(diagnostics.map((each) => `${each.severity} ${each.code}`)).toEqual([said]);
  });
});

describe("every fault in one go", () => {
  test("schema, rules and tables together, in file order", () => {
    const text = [
      ["issued: 2026-03-18", "issued: 2026-13-18"],
      ["stroke: 2.953", "stroke: wide"],
      ["throat: 1.525", "throat: 1.70"],
      ["repeats: As received", "repeats: Nothing"],
      ["0.100   44.3", "0.100   44.3 1"],
    ].reduce((sum, [from, to]) => change(sum, [from as string, to as string]), FULL_JOB);
    expect(read(text).diagnostics.map((each) => each.code)).toEqual([
      "job/date",
      "units/not-a-number",
      "job/repeats-missing",
      "job/throat-over-valve",
      "job/readings-row",
    ]);
  });

  test("a missing `units` is one slip, not one at every number", () => {
    const text = change(FULL_JOB, [/units: \{.*\n/, ""]);
    const bare = read(text).diagnostics.filter(({ code }) => code === "units/missing-unit");
    expect(bare.map(({ message }) => message)).toEqual(["bare numbers have no unit here: `units` is not stated"]);
  });
});

test.each([
  ["compressed: 0.041", "compressed: thin"],
  ["{ net_lift: 0.420,", "{ net_lift: 0.420 kPa,"],
  ["width: 0.92,", "width: 0.92 kPa,"],
  ["height: 1.72,", "height: tall,"],
  ["area: 1.2 }", "area: 1.2 kPa }"],
])("what is refused is not called missing as well: %j", (from, to) => {
  const { diagnostics } = read(change(FULL_JOB, [from, to]));
  expect(diagnostics.map(({ code }) => code)).toEqual([expect.stringMatching(/^units\//)]);
});

describe("messages", () => {
  test("are lower case, without a full stop, and never say invalid input", () => {
    for (const { bad } of CASES) {
      for (const { message } of read(change(FULL_JOB, bad)).diagnostics) {
        expect(message).toMatch(/^[^A-Z]/);
        expect(message).not.toMatch(/\.$|invalid input/i);
      }
    }
  });
});
