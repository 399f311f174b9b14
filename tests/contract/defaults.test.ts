import { describe, expect, test } from "vitest";
import { DEFAULTS } from "../../src/job/defaults.ts";
import { evaluateJob } from "../../src/pipeline/evaluate.ts";
import { templatesOf } from "../../src/pipeline/file-name.ts";
import { SHOP, SHORT_SET } from "../project/shop-texts.ts";
import { LONG_FILES, LONG_PRODUCT } from "./long-job.ts";
import { shopWorld } from "./made.ts";
import { onPaperOf } from "./on-paper.ts";

/** A shop that states nothing that has a default, and a job as short. */
const BARE_SHOP = SHOP.replace("paper: A4\n", "")
  .replace(/^report:.*\n/m, "")
  .replace("reads: flow, meter: orifice, accuracy: 1.5 %", "against: a plate");
const FILES = { "/shop/shop.yaml": BARE_SHOP };
const paper = (text: string) => onPaperOf(text, FILES);
const bare = paper(SHORT_SET);
const with_ = (lines: string) => paper(SHORT_SET.replace("customer:", `${lines}\ncustomer:`));
/** The job that states the default is the job that leaves it out; another value is another sheet. */
function stands(stated: string, other: string): void {
  expect(with_(stated).sheet).toEqual(bare.sheet);
  expect(with_(stated).figures).toEqual(bare.figures);
  expect(JSON.stringify(with_(other).sheet) + with_(other).beside).not.toBe(JSON.stringify(bare.sheet) + bare.beside);
}

describe("what is left out is as if it were stated", () => {
  test("valves, ports, feeds, cylinder, mount and revision are 1", () => {
    const port = (counts: string) => paper(SHORT_SET.replace("intake:  {", `intake:  { ${counts},`));
    expect(port("valves: 1, ports: 1, feeds: 1").sheet).toEqual(bare.sheet);
    for (const counts of ["valves: 2", "ports: 2", "feeds: 2"]) expect(port(counts).sheet).not.toEqual(bare.sheet);
    const table = /flow: \|\n( {6}lift[\s\S]*?)(?= {2}- name|work:)/g;
    const run = (facts: string) =>
      paper(
        SHORT_SET.replace(
          table,
          (_, rows: string) => `runs:\n      - ${facts}\n        flow: |\n${rows.replace(/^ {6}/gm, "          ")}`,
        ),
      );
    expect(run("cylinder: 1\n        mount: 1").figures).toEqual(bare.figures);
    expect(run("cylinder: 2").figures).not.toEqual(bare.figures);
    expect(with_("revision: 1").sheet).toEqual(bare.sheet);
    expect(DEFAULTS).toMatchObject({ valves: 1, ports: 1, feeds: 1, cylinder: 1, mount: 1, revision: 1 });
  });
  test("the sheet is a handover, of a product a catalogue", () => {
    const asked = (text: string) =>
      templatesOf(
        evaluateJob("/shop/a.yaml", {}, shopWorld({ ...LONG_FILES, "/shop/a.yaml": text })).drawable!.project,
        {},
      );
    expect(asked(SHORT_SET)).toEqual(["handover"]);
    expect(asked(LONG_PRODUCT.replace("sheet: catalogue\n", ""))).toEqual(["catalogue"]);
    expect(asked(SHORT_SET.replace("customer:", "sheet: attachment\ncustomer:"))).toEqual(["attachment"]);
  });
  test("the paper is A4", () => {
    expect(bare.sheet.theme.paper).toEqual(with_("paper: A4").sheet.theme.paper);
    expect(bare.sheet.theme.paper).not.toEqual(with_("paper: Letter").sheet.theme.paper);
  });
  test("the report is at 28 inH2O", () => stands("report: { test_pressure: 28 }", "report: { test_pressure: 25 }"));
  test("lifts are low, mid, high, the cam when it is known, and the peak", () => {
    stands("report: { lifts: [low, mid, high, peak] }", "report: { lifts: [peak] }");
    const at = (lines: string) => with_(lines).model.report.lifts.map(({ kind }) => kind);
    expect(at("engine: { intake_cam: { net_lift: 0.420 } }")).toEqual(["low", "mid", "high", "cam", "peak"]);
    expect(at("engine: { name: Launch }")).toEqual(["low", "mid", "high", "peak"]);
  });
  test("the pinch's mark is 0.55 Mach, and then only the band is drawn", () => {
    const engine = "engine: { bore: 3.425, stroke: 2.953, rod_length: 5.39, rpm: { from: 2500, to: 5000 } }";
    const pinched = (more: string) =>
      paper(
        SHORT_SET.replace("throat: 1.525", "throat: 1.525, pinch: 1.55").replace(
          "customer:",
          `${engine}\n${more}customer:`,
        ),
      );
    const [silent, stated, other] = [
      "",
      "report: { pinch_limit: 0.55 Mach }\n",
      "report: { pinch_limit: 0.50 Mach }\n",
    ].map(pinched);
    expect(stated!.figures).toEqual(silent!.figures);
    expect(silent!.words).toMatch(/0\.45 to 0\.55 of the speed of sound\. Met at/);
    expect(silent!.words).not.toMatch(/shop's own mark/);
    expect(other!.words).toMatch(/the shop's own mark, 0\.50 of the speed of sound, reached at about [\d,]+ rpm/);
    const limit = (one: typeof silent) => one!.figures.stages[1]!.engine!.pinch_limit_rpm!;
    expect(limit(other)).toBeLessThan(limit(silent));
    expect(silent!.words).toMatch(/common practice/);
  });
  test("readings are embedded, and nothing is held back", () => {
    stands("report: { embed: readings, hold_back: [] }", "report: { embed: none }");
    expect(bare.beside).toContain("readings.csv");
    expect(bare.beside).not.toContain("figures.json");
  });
  test("lift is set to 0.002 in, and the sheet says that it was not stated", () => {
    const stated = with_("bench: { lift_setting: 0.002 }");
    expect(stated.figures).toEqual(bare.figures);
    expect(bare.words).toContain("How exactly lift was set was not stated: taken as ± 0.002 in.");
    expect(stated.words).toContain("Lift was set to ± 0.002 in.");
    const known = (lift: string) => with_(`bench: { repeatability: 1 %, lift_setting: ${lift} }`).figures;
    expect(known("0.004")).not.toEqual(known("0.002"));
  });
  test("the bench reads flow through an orifice, and the sheet says that the meter was not stated", () => {
    stands(
      "bench: { reads: flow }",
      "bench: { meter: mass, air: { temperature: 90, pressure: 29.0 inHg, humidity: 40 % } }",
    );
    const stated = with_("bench: { meter: orifice }");
    expect(stated.figures).toEqual(bare.figures);
    expect(bare.words).toContain("taken to be an orifice meter");
    expect(stated.words).not.toContain("taken to be an orifice meter");
  });
  test("accuracy, repeatability, remount, leakage, air, power and engine are absent, never invented", () => {
    for (const words of [
      "leakage not stated",
      "air not stated",
      "Bench accuracy was not stated",
      "bore of fixture not stated",
      "Repeatability was neither measured nor stated",
    ])
      expect(bare.words.toLowerCase()).toContain(words.toLowerCase());
    expect(
      bare.figures.stages.every((stage) => stage.engine === undefined && stage.compression_ratio === undefined),
    ).toBe(true);
    expect(JSON.stringify(bare.figures)).not.toMatch(/supported_power|uncertainty_m3_s|null/);
  });
  test("reference air is 20 °C, 101 325 Pa, dry", () => {
    expect(bare.figures.reference.air).toMatchObject({
      temperature_K: 293.15,
      pressure_Pa: 101_325,
      relative_humidity: 0,
    });
    expect(bare.words).toMatch(/air of 68 °F, 29\.92 inHg, dry/);
  });
});
