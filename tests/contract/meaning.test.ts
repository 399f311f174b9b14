import { describe, expect, test } from "vitest";
import { evaluateJob } from "../../src/pipeline/evaluate.ts";
import { memoryWorld } from "../project/memory-world.ts";
import { SHOP, SHORT_SET } from "../project/shop-texts.ts";
import { onPaperOf } from "./on-paper.ts";

const FILES = { "/shop/shop.yaml": SHOP };
const paper = (text: string, files: Readonly<Record<string, string>> = {}) => onPaperOf(text, { ...FILES, ...files });
const swap = (from: string, to: string) => {
  if (!SHORT_SET.includes(from)) throw new Error(`nothing to change: ${from}`);
  return SHORT_SET.replace(from, () => to);
};
const CFM = 4.719474e-4; // NIST SP 811 (2008), App. B.8: to seven digits

test("a `head` beside `heads` holds what they share; each has its stamp and cylinders", () => {
  const { words, model } = paper(
    swap(
      "head: { name: Wedge four, stamped: 4471 }",
      "head: { name: Wedge vee, casting: QH 1 }\nheads:\n  - { id: L, stamped: 4471L, cylinders: [1, 3] }\n  - { id: R, stamped: 4471R, cylinders: [2, 4] }",
    ),
  );
  expect(words).toContain("Wedge vee L and R");
  expect(words).toMatch(/stamped 4471L, cylinders 1, 3/);
  expect(words).toMatch(/stamped 4471R, cylinders 2, 4/);
  expect(words).toContain("casting QH 1");
  expect(words).toMatch(/1 of 4/);
  expect(model.text.heads).toHaveLength(2);
});

test("what follows # is printed as the reason of a missing or struck-out reading, and nowhere else", () => {
  const { words, beside } = paper(
    SHORT_SET.replace("# smudged", "# zqreason").replace("# doubtful: drawn open, not used", "# zqcomment"),
  );
  expect(words).toContain("zqreason");
  expect(words + beside).not.toContain("zqcomment");
});

describe("one sweep, typed or as a file of any of its forms, is one sheet", () => {
  const rows = [
    ["lift", "intake", "exhaust"],
    ["0.100", "44.0", "33.1"],
    ["0.200", "86.2?", "63.0!"],
    ["0.300", "-", "~84.0"],
    ["0.400", "150.3", "97.0"],
  ];
  const typed = (body: string) =>
    SHORT_SET.replace(
      /(intake: \{ valve: 1\.732, throat: 1\.525 \}\n)[\s\S]*?work:/,
      (_, head) => `${head}${body}work:`,
    );
  const own = paper(typed(`    flow: |\n${rows.map((row) => `      ${row.join("  ")}\n`).join("")}`));
  test.each([
    [";", ".csv", ""],
    [",", ".csv", ""],
    ["\t", ".tsv", ""],
    [";", ".csv", "\ufeff"],
  ])("%j in a %s file behind %j", (mark, ending, bom) => {
    const file = `${bom}${rows.map((row) => row.join(mark)).join("\r\n")}\r\n`;
    const read = paper(typed(`    runs: [ { file: bench/f${ending} } ]\n`), { [`/shop/bench/f${ending}`]: file });
    expect(read.sheet).toEqual(own.sheet);
    expect(read.figures).toEqual(own.figures);
  });
});

test("the first of several durations stands for the one", () => {
  const cam = (text: string) =>
    paper(swap("customer:", `engine: { intake_cam: { net_lift: 0.420, of: valve, ${text} } }\ncustomer:`));
  const one = cam("duration: 246 deg, at: 0.050");
  const several = cam("durations: [ { duration: 246 deg, at: 0.050 }, { duration: 150 deg, at: 0.200 } ]");
  expect(several.sheet).toEqual(one.sheet);
  expect(cam("durations: [ { duration: 240 deg, at: 0.050 } ]").sheet).not.toEqual(one.sheet);
  expect(cam("durations: [ { duration: 246 deg, at: 0.040 } ]").sheet).not.toEqual(one.sheet);
});

/*
 * Dry air by the ideal gas law, ρ = p ÷ (287.05 T): 96 kPa and 30 °C give 96000 ÷ (287.05 × 303.15) = 1.10321 kg/m³; reference
 * 1.20409. √(1.10321 ÷ 1.20409) = 0.95719 for a meter of volume, its inverse 1.04472 for a meter of mass.
 */
describe("a meter that sees density", () => {
  test.each([
    ["volumetric", 0.95719, "Its meter shows volume"],
    ["mass", 1.04472, "Its meter shows mass"],
  ])("a %s meter is brought to reference air, and says so", (meter, factor, says) => {
    const air = "air: { temperature: 30 degC, pressure: 96 kPa, humidity: 0 % }";
    const { figures, words } = paper(swap("customer:", `bench: { meter: ${meter}, ${air} }\ncustomer:`));
    const [first] = figures.stages[1]!.intake!.readings;
    expect(first!.flow_m3_s / (44 * CFM)).toBeCloseTo(factor, 3);
    expect(words).toContain(says);
  });
  test("an orifice's does not", () => {
    const { figures } = paper(
      swap("customer:", "bench: { air: { temperature: 30 degC, pressure: 96 kPa, humidity: 0 % } }\ncustomer:"),
    );
    expect(figures.stages[1]!.intake!.readings[0]!.flow_m3_s / CFM).toBeCloseTo(44, 3);
  });
  test("a mass meter without air is refused, as a volumetric one is", () => {
    for (const meter of ["volumetric", "mass"]) {
      const text = swap("customer:", `bench: { meter: ${meter} }\ncustomer:`);
      const { diagnostics } = evaluateJob("/shop/a.yaml", {}, memoryWorld({ ...FILES, "/shop/a.yaml": text }));
      expect(new Set(diagnostics.map(({ code }) => code))).toEqual(new Set(["job/meter-needs-air"]));
    }
  });
});

describe("strict refuses what would else be said", () => {
  const unlike = (strict: string) => {
    const text = SHORT_SET.replace("- name: Finished", "- name: Finished\n    bench: { bore_fixture: 3.45 }").replace(
      "customer:",
      `${strict}customer:`,
    );
    const { drawable, diagnostics } = evaluateJob("/shop/a.yaml", {}, memoryWorld({ ...FILES, "/shop/a.yaml": text }));
    const codes = diagnostics.map(({ severity, code }) => `${severity} ${code}`);
    const at = diagnostics.find(({ code }) => code.endsWith("unlike-conditions"))?.at;
    const row = at && text.slice(text.lastIndexOf("\n", at.start) + 1, text.indexOf("\n", at.start)).trim();
    return { drawable, row, codes: codes.filter((one) => one.endsWith("unlike-conditions")) };
  };
  test("without it the sheet says so", () => {
    const { drawable, codes, row } = unlike("");
    expect(drawable).toBeDefined();
    // The first row of the readings that are compared.
    expect(row).toMatch(/^0\.100 /);
    expect(codes).toEqual(["warning figures/unlike-conditions"]);
  });
  test("with it the job is refused", () => {
    const { drawable, codes } = unlike("report: { strict: true }\n");
    expect(drawable).toBeUndefined();
    expect(codes).toEqual(Array(2).fill("error figures/unlike-conditions"));
  });
  test("alike conditions pass", () =>
    expect(
      evaluateJob(
        "/shop/a.yaml",
        {},
        memoryWorld({ ...FILES, "/shop/a.yaml": swap("customer:", "report: { strict: true }\ncustomer:") }),
      ).drawable,
    ).toBeDefined());
});
