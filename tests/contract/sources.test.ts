import { describe, expect, test } from "vitest";
import { SHOP, SHORT_SET } from "../project/shop-texts.ts";
import { onPaperOf } from "./on-paper.ts";

/** A shop that states nothing of its bench but a pressure and a plate. */
const SILENT_SHOP = SHOP.replace("reads: flow, meter: orifice, accuracy: 1.5 %", "against: a plate");
const words = (lines = "", from = SHORT_SET) =>
  onPaperOf(from.replace("customer:", `${lines}\ncustomer:`), { "/shop/shop.yaml": SILENT_SHOP }).words;
const bench = (facts: string) => words(`bench: { ${facts} }`);

describe("a sentence is printed only of what was stated", () => {
  test("the exhaust pipe: none, its size, or not stated", () => {
    expect(words()).toContain("exhaust pipe not stated");
    expect(words()).not.toContain("no exhaust pipe");
    expect(bench("exhaust_pipe: none")).toContain("no exhaust pipe");
    expect(bench("exhaust_pipe: { diameter: 1.75 }")).toContain("exhaust pipe 1.750 in diameter");
  });

  test("the air: none of it, and no humidity that nobody typed", () => {
    expect(words()).toContain("air not stated");
    const dry = bench("air: { temperature: 70, pressure: 29.80 inHg }");
    expect(dry).toContain("air 70 °F, 29.80 inHg ·");
    expect(dry).not.toMatch(/humidity/);
    expect(bench("air: { temperature: 70, pressure: 29.80 inHg, humidity: 0 % }")).toContain(
      "29.80 inHg, humidity 0 %",
    );
  });

  test("the meter: one that was not stated is named as taken", () => {
    expect(words()).toContain("Its meter was not stated: taken to be an orifice meter");
    expect(bench("meter: orifice")).toContain("Its orifice meter stands in the same air as the head");
    expect(bench("meter: orifice")).not.toContain("taken to be");
  });

  test("the lift setting: a default is no habit of the shop", () => {
    expect(words()).toContain("How exactly lift was set was not stated: taken as ± 0.002 in.");
    expect(bench("lift_setting: 0.002")).toContain("Lift was set to ± 0.002 in.");
  });

  test("the cylinder: named only where it was typed", () => {
    expect(words()).toContain("Each side: flowed 1 port.");
    const short = [...SHORT_SET.matchAll(/ {4}flow: \|\n((?: {6}.*\n)+)/g)].at(-1);
    const typed = SHORT_SET.replace(
      short![0],
      `    runs:\n      - cylinder: 3\n        flow: |\n${short![1]!.replaceAll(/^/gm, "    ").trimEnd()}\n`,
    );
    expect(words("", typed)).toContain("each side: flowed 1 port (cylinder 3).");
  });

  test("the gasket: what was stated of it, and nothing else", () => {
    const engine = (gasket: string) => words(`engine: { bore: 3.425, gasket: ${gasket} }`);
    expect(words()).toContain("tell us its bore and thickness");
    expect(engine("{ bore: 3.5, compressed: 0.041 }")).toContain("use the thickness and bore stated to us");
    expect(engine("{ volume: 8.9 cc }")).toContain("use the volume stated to us");
  });

  test("the days: of measuring, and of which stage where not all are stated", () => {
    const dated = (from: string, to: string) =>
      words(
        "",
        SHORT_SET.replace("- name: As received", `- name: As received\n    ${from}`).replace(
          /- name: Finished.*/,
          `- name: Finished\n    ${to}`,
        ),
      );
    expect(words()).not.toMatch(/measured \d/);
    expect(dated("date: 2026-02-24", "date: 2026-03-12")).toContain("measured 24 February to 12 March 2026");
    expect(dated("date: 2026-02-24", "")).toContain("as received measured 24 February 2026");
  });

  test("a deck that was not cut is not called cut", () => {
    const worked = (item: string) => words("", SHORT_SET.replace("work:", `work:\n  Deck: [ ${item} ]`));
    expect(worked("Cut 0.010 in")).toContain("The deck was cut");
    expect(worked("Checked and not cut")).not.toContain("The deck was cut");
  });
});

describe("the lift that springs are set up for", () => {
  const SPRINGS =
    "installed_height: 1.560, coil_bind: 1.020, retainer_to_seal: 0.510, open_force: 215 lbf, open_at: 0.430";
  const CAM = "engine: { intake_cam: { net_lift: 0.420 } }\n";
  const springs = (more = "", engine = CAM) => words(`${engine}springs: { ${SPRINGS}${more} }`);
  const UNCHECKED = "We did not check spring travel: measure it.";

  test("stands on the sheet where the shop states it, and the caution goes", () => {
    const stated = springs(", set_up_for: 0.450");
    expect(stated).toContain("Springs are set up for valve lift up to 0.450 in.");
    // 1.560 − 1.020 − 0.450.
    expect(stated).toMatch(/Left to coil bind\n0\.090 in\ncalculated, at 0\.450 in lift/);
    expect(stated).not.toContain(UNCHECKED);
  });

  test("is taken neither from the lift of the open force nor from the cam", () => {
    for (const silent of [springs(), springs("", "")]) {
      expect(silent.toLowerCase()).not.toContain("set up for valve lift");
      expect(silent).toContain(UNCHECKED);
    }
    expect(springs()).toMatch(/Left to coil bind\n0\.120 in\ncalculated, at 0\.420 in lift/);
    expect(springs("", "")).not.toContain("Left to coil bind");
  });

  test("below the cam's lift, or without room, is a caution", () => {
    expect(springs(", set_up_for: 0.400")).toContain(
      "The springs are set up for valve lift up to 0.400 in, and your cam opens further.",
    );
    const bound = springs(", set_up_for: 0.520");
    expect(bound).toContain("At 0.520 in valve lift the springs leave no room.");
    expect(bound.toLowerCase()).not.toContain("set up for valve lift");
  });
});
