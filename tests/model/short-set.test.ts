import { describe, expect, test } from "vitest";
import { SHORT_SET } from "../project/shop-texts.ts";
import { modelOf } from "./model-of.ts";

const { model, codes } = modelOf(SHORT_SET);
const [received, finished] = model.stages;
const INCH = 0.0254; // NIST SP 811 (2008), App. B.8: exact
const CFM = 4.719474e-4; // NIST SP 811 (2008), App. B.8: to seven digits

describe("the short set", () => {
  test("says nothing", () => expect(codes).toEqual([]));
  test("names the sheet", () => {
    expect(model.identity).toEqual({
      kind: "job",
      number: "2026-014",
      title: "Wedge four",
      issued: "2026-03-18",
      revision: 1,
      draft: false,
    });
  });
  test("dimensions are in SI", () => {
    expect(received?.ports.intake?.valves).toHaveLength(1);
    expect(received?.ports.intake?.valves[0]?.head).toBeCloseTo(1.654 * INCH, 12);
    expect(received?.ports.intake?.valves[0]?.stem).toBeCloseTo(0.315 * INCH, 12);
    expect(received?.ports.exhaust?.seat?.angle).toBeCloseTo(Math.PI / 4, 12);
    expect(received?.ports.exhaust?.seat?.width).toBeCloseTo(0.075 * INCH, 12);
  });
  test("flow is one run of cylinder 1, mounted once, in a bare set", () => {
    expect(received?.sets.map((set) => [set.name, set.named, set.runs.length])).toEqual([["bare", false, 1]]);
    expect(received?.sets[0]?.runs[0]).toMatchObject({ cylinder: 1, mount: 1 });
  });
  test("readings keep mark, reason, place, and the size of their last digit", () => {
    const { intake = [], exhaust = [] } = received?.sets[0]?.runs[0]?.readings ?? {};
    expect(intake.map((each) => each.kind)).toEqual(["good", "good", "good", "doubtful", "good"]);
    expect(intake[0]?.flow).toBeCloseTo(40.1 * CFM, 8);
    expect(intake[0]?.resolution).toBeCloseTo(0.1 * CFM, 10);
    // Of the column: `138` beside `40.1` was read to a tenth as well.
    expect(intake[3]?.resolution).toBeCloseTo(0.1 * CFM, 10);
    expect(exhaust[2]).toMatchObject({ kind: "missing", reason: "smudged" });
    expect(exhaust[2]?.flow).toBeUndefined();
    const { at } = intake[3]!;
    expect(SHORT_SET.slice(at?.start, at?.end)).toBe("135?");
    // 28 in of conventional water: 28 × 249.08891 Pa (NIST SP 811).
    expect(intake[0]?.pressure).toBeCloseTo(6974.489, 2);
  });
  test("the finished head takes over what it does not state, and says so", () => {
    expect(finished?.ports.intake?.valves[0]?.head).toBeCloseTo(1.732 * INCH, 12);
    expect(finished?.ports.intake?.valves[0]?.stem).toBeCloseTo(0.315 * INCH, 12);
    expect(finished?.ports.intake?.notRemeasured).toEqual(["seat"]);
    expect(finished?.ports.exhaust?.notRemeasured).toEqual(["valve", "seat", "throat"]);
    expect(finished?.ports.exhaust?.stale).toEqual([]);
  });
  test("what nobody said is absent", () => {
    expect(model.engine).toBeUndefined();
    expect(finished?.bench.repeatability).toBeUndefined();
    expect(finished?.ports.intake?.pinch).toBeUndefined();
    expect(model.report.powerPerFlow).toBeUndefined();
  });
  test("defaults are filled in, and known to be defaults", () => {
    expect(model.report.lifts.map((lift) => lift.kind)).toEqual(["low", "mid", "high", "peak"]);
    expect(model.report).toMatchObject({ embed: "readings", holdBack: [], strict: false, pinchLimitIsDefault: true });
    expect(model.report.pinchLimit).toEqual({ kind: "mach", value: 0.55 });
    expect(received?.bench).toMatchObject({ reads: "flow", meter: "orifice", liftSettingIsDefault: true });
    expect(received?.bench.liftSetting).toBeCloseTo(0.002 * INCH, 12);
    expect(model.reference.air).toEqual({ temperature: 293.15, pressure: 101_325, relativeHumidity: 0 });
  });
});
