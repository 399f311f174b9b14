import { describe, expect, test } from "vitest";
import { displayUnits } from "../../src/model/display-units.ts";
import { jobWith, modelOf } from "./model-of.ts";

const INCH = 0.0254;
const DEGREE = Math.PI / 180;
const engine = (facts: string) => modelOf(jobWith("  - { name: One }\n", `engine: { ${facts} }`)).model;

describe("cams are referred to the valve", () => {
  const cam = (facts: string) => engine(`intake_cam: { ${facts} }`).engine?.cams.intake;
  // Hand calculation: 0.288 × 1.5 − 0.012 = 0.420 in; 0.050 × 1.5 − 0.012 = 0.063 in.
  test("net lift from lobe, rocker and lash", () => {
    const own = cam("lobe_lift: 0.288, rocker: 1.5, lash: 0.012, duration: 240 deg, at: 0.050, of: follower");
    expect(own?.netLift).toBeCloseTo(0.42 * INCH, 12);
    expect(own?.at).toBeCloseTo(0.063 * INCH, 12);
    expect(own?.duration).toBeCloseTo(240 * DEGREE, 12);
  });
  test("a check lift at the valve stays", () => {
    expect(cam("net_lift: 0.42, duration: 246, at: 0.05, of: valve")?.at).toBeCloseTo(0.05 * INCH, 12);
  });
  test("a duration whose check lift nobody placed is not used", () => {
    expect(cam("net_lift: 0.42, duration: 246, at: 0.05")).toEqual({ netLift: 0.42 * INCH });
  });
  test("a profile carries its own lift", () => {
    const text = jobWith(
      "  - { name: One }\n",
      "engine:\n  intake_cam:\n    rocker: 1.5\n    lash: 0.012\n    of: follower\n    at: 0.05\n    profile: |\n      degrees lift\n      -120 0\n      0 0.288\n      120 0\n",
    );
    const own = modelOf(text).model.engine?.cams.intake;
    expect(own?.netLift).toBeCloseTo(0.42 * INCH, 12);
    expect(own?.profile?.map((point) => point.lift)).toEqual([0, own?.netLift, 0]);
    expect(own?.profile?.[0]?.angle).toBeCloseTo(-120 * DEGREE, 12);
  });
  test("a known cam joins the places where the sheet compares", () => {
    expect(engine("intake_cam: { net_lift: 0.42 }").report.lifts.map((lift) => lift.kind)).toContain("cam");
  });
});

describe("words become signs", () => {
  const piston = (facts: string) => engine(`piston: { ${facts} }`).engine?.piston;
  test("a dish adds, a dome takes away", () => {
    expect(piston("dish: 5 cc")?.dish).toBeCloseTo(5e-6, 15);
    expect(piston("dome: 5 cc")?.dish).toBeCloseTo(-5e-6, 15);
  });
  test("below the deck adds, above takes away", () => {
    expect(piston("below_deck: 0.02")?.belowDeck).toBeCloseTo(0.02 * INCH, 12);
    expect(piston("above_deck: 0.02")?.belowDeck).toBeCloseTo(-0.02 * INCH, 12);
  });
  test("a gasket is a ring or a volume", () => {
    expect(engine("gasket: { bore: 3.5, compressed: 0.041 }").engine?.gasket?.kind).toBe("ring");
    expect(engine("gasket: { volume: 8.9 cc }").engine?.gasket).toEqual({
      kind: "volume",
      volume: expect.closeTo(8.9e-6, 12),
    });
  });
});

describe("units of the sheet", () => {
  test("inches bring square inches, feet per second and pounds", () => {
    expect(displayUnits({ length: "in" })).toMatchObject({
      area: "in2",
      speed: "ft/s",
      force: "lbf",
      power: "hp",
      temperature: "degF",
    });
  });
  test("millimetres bring their own", () => {
    expect(displayUnits({ length: "mm", flow: "m3/h" })).toMatchObject({
      area: "mm2",
      speed: "m/s",
      force: "N",
      flow: "m3/h",
      temperature: "degC",
    });
  });
  test("what is declared stays", () =>
    expect(displayUnits({ length: "in", area: "mm2", power: "PS" })).toMatchObject({ area: "mm2", power: "PS" }));
});

describe("titles", () => {
  test.each([
    ["head: { name: Wedge }", "Wedge"],
    ["head: { name: Wedge }\nheads: [ { id: L }, { id: R } ]", "Wedge L and R"],
    ["heads: [ { id: L, name: Left }, { id: R, name: Right } ]", "Left and Right"],
  ])("%s", (head, title) => {
    expect(modelOf(jobWith("  - { name: One }\n").replace("head: { name: Wedge }", head)).model.identity.title).toBe(
      title,
    );
  });
});
