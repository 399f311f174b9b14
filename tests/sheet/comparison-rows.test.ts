import { describe, expect, test } from "vitest";
import { computeFigures } from "../../src/figures/compute-figures.ts";
import type {
  ChangeFigures,
  Comparison,
  EngineFigures,
  Figures,
  PeakChangeFigures,
} from "../../src/figures/figures.ts";
import type { Table } from "../../src/sheet/content.ts";
import { inclinedReceived } from "../figures/demo-heads.ts";
import type { Row } from "../figures/model-fixture.ts";
import { fullModel, fullSketch, only, repeated, said, sheetOf, stringsOf, theme } from "./sheet-fixture.ts";

const before = fullSketch.stages![0]!;
const after = fullSketch.stages![1]!;
const MM = 0.001;

/** The full job beside another head, with its comparisons changed by hand. */
const model = fullModel({
  compared: [{ label: "Standard valves", stage: { ...before, runs: repeated(inclinedReceived, 1, 1.004) } }],
});
const computed = computeFigures(model);
const isOwn = ({ from, side }: Comparison) => from.label === undefined && side === "intake";
const isOther = ({ from, side }: Comparison) => from.label !== undefined && side === "intake";
const figuresWith = (which: (pair: Comparison) => boolean, changes: Partial<Comparison>): Figures => ({
  ...computed,
  comparisons: computed.comparisons.filter(which).map((pair) => ({ ...pair, ...changes })),
});
const tableOf = (figures: Figures, block: string): Table => {
  const tables = sheetOf(model, only(block), figures).rows.flatMap(({ cells }) =>
    cells.flatMap(({ block: { parts } }) => parts.filter((part) => part.kind === "table")),
  );
  if (tables.length !== 1) throw new Error(`${tables.length} tables`);
  return tables[0]!;
};
const textOf = (table: Table) => table.rows.map((row) => row.map(({ text }) => text));

const peak = (changes: Partial<PeakChangeFigures>): PeakChangeFigures => ({
  from_lift_m: 11 * MM,
  to_lift_m: 12 * MM,
  from_m3_s: 0.08,
  change_m3_s: 0.02,
  change_ratio: 0.25,
  uncertainty_m3_s: 0.002,
  verdict: "clear gain",
  ...changes,
});

describe("the peak", () => {
  const tableWith = (changes: Partial<PeakChangeFigures>) =>
    tableOf(figuresWith(isOwn, { peak_change: peak(changes) }), "compared");
  test("is compared with the peak before, both lifts printed", () => {
    const table = tableWith({});
    const row = table.rows.find(([where]) => where!.text.includes("peak"))!;
    expect(row[0]!.text).toBe("peak, beyond");
    // 0.08 and 0.10 m³/s in cfm; ± 0.002 of 0.08.
    expect(row.slice(1).map(({ text }) => text)).toEqual(["12.0", "169.5", "211.9", "+25.0"]);
    expect(row.at(-1)).toMatchObject({ mark: "up", markLabel: "clear gain", plusMinus: "±\u00a02.5" });
    expect(table.notes.join(" ").replaceAll("\u00a0", " ")).toContain("peak at 11.0 mm");
  });
  test("without a comparison of peaks is in no row", () => {
    const { peak_change: _, ...bare } = computed.comparisons.find(isOwn)!;
    const table = tableOf({ ...computed, comparisons: [bare] }, "compared");
    expect(textOf(table).some(([where]) => where!.includes("peak"))).toBe(false);
    const why = "Intake: peaks are not compared; one of the two may lie beyond the lifts read.";
    expect(table.notes).toContain(why);
    expect(tableOf(computed, "compared").notes).not.toContain(why);
  });
});

/** 3 % higher up to 6 mm, then 3 % lower, of a flow of 0.05. */
const crossed: ChangeFigures[] = [2, 4, 6, 8, 10].map((lift) => {
  const higher = lift <= 6;
  return {
    lift_m: lift * MM,
    from_m3_s: 0.05,
    change_m3_s: higher ? 0.0015 : -0.0015,
    change_ratio: higher ? 0.03 : -0.03,
    uncertainty_m3_s: 0.0005,
    verdict: higher ? "clearly higher" : "clearly lower",
  };
});

describe("beside another head", () => {
  const beside = (changes: Partial<Comparison> = {}) =>
    figuresWith(isOther, {
      changes: crossed,
      compared: [
        { at: "low", lift_m: 4 * MM },
        { at: "mid", lift_m: 8 * MM },
      ],
      peak_change: peak({ verdict: "clearly higher" }),
      mean_change_ratio: 0.001,
      mean_change_uncertainty_ratio: 0.012,
      mean_change_verdict: "within repeatability",
      bound_ratio: 0.013,
      ...changes,
    });
  test("low, mid and peak each have a verdict, then the average with its size, then where they cross", () => {
    const table = tableOf(beside(), "other-heads");
    expect(table.title).toBe("Finished, against Standard valves");
    const rows = textOf(table).map((row) => [row[0], row.at(-1)!.replaceAll("\u00a0", " ")]);
    expect(rows).toEqual([
      ["Intake, low lift", "clearly higher"],
      ["Intake, mid lift", "clearly lower"],
      ["Intake, peak (there at 11.0), beyond your cam", "clearly higher"],
      [expect.stringMatching(/^Intake, average, /), "within repeatability, smaller than 1.3 %"],
    ]);
    expect(table.notes.map((note) => note.replaceAll("\u00a0", " "))).toContain(
      "Intake: clearly higher up to 6.0 mm, clearly lower from 8.0 mm.",
    );
    // 0.05 m³/s and 3 % more, in cfm: 105.9 and 109.1.
    expect(textOf(table)[0]!.slice(1, 6)).toEqual(["4.0", "105.9", "109.1", "+3.0", "1.0"]);
  });
  test("conditions that differ keep the numbers, and nothing is said to cross", () => {
    const table = tableOf(
      beside({
        verdict_withheld: "conditions",
        like_for_like: false,
        differences: ["entry none against clay radius"],
        changes: crossed.map(({ verdict: _, ...change }) => change),
        peak_change: undefined,
        mean_change_verdict: undefined,
        bound_ratio: undefined,
      } as Partial<Comparison>),
      "other-heads",
    );
    expect(textOf(table)[0]!.slice(3)).toEqual(["109.1", "+3.0", "1.0", "no verdict, conditions differ"]);
    expect(table.notes.join(" ")).not.toMatch(/clearly/);
    expect(table.notes.join(" ")).toContain("Entry none against clay radius.");
  });
  test("flowed once: the flows stand, and no column of differences", () => {
    const once = crossed.map(({ verdict: _v, uncertainty_m3_s: _u, ...change }) => change);
    const table = tableOf(
      beside({
        verdict_withheld: "flowed once",
        changes: once,
        peak_change: undefined,
        mean_change_verdict: undefined,
        mean_change_uncertainty_ratio: undefined,
      } as Partial<Comparison>),
      "other-heads",
    );
    expect(textOf(table)[0]).toEqual([
      "Intake, low lift",
      "4.0",
      "105.9",
      "109.1",
      "flowed once each time: not judged",
    ]);
  });
});

describe("another head on this engine", () => {
  const engine: EngineFigures = {
    pinch_band_rpm: { low: 5000, high: 6100 },
    inlet_mach_index: computed.stages[1]!.engine!.inlet_mach_index.map(({ rpm }) => ({ rpm, z: 0.777 })),
    z_limit_rpm: 4321,
    pinch_velocity: computed.stages[1]!.engine!.pinch_velocity,
    mean_piston_speed: [],
  };
  const figures = {
    ...computed,
    comparisons: computed.comparisons.map((pair) => (isOther(pair) ? { ...pair, engine } : pair)),
  };
  const page = (shown = model, what: Figures = figures) => {
    const sheet = sheetOf(
      shown,
      {
        ...only("title", "engine-air", "pinch-speed"),
        rows: only("title", "engine-air", "pinch-speed").rows.map((row, i) => ({ ...row, newPage: i === 1 })),
      },
      what,
    );
    return `${said(sheet, "engine-air")} ${said(sheet, "pinch-speed")}`;
  };
  test("has its index, its limit and its band under its label", () => {
    const words = page();
    expect(words).toContain("Standard valves");
    expect(words).toContain("0.78");
    expect(words).toMatch(/reaches 0\.6 at about \d[\d ]*rpm and 4 ?300 rpm with Standard valves\./);
    expect(words).toMatch(/5 ?000 to 6 ?100 rpm \(Standard valves\)/);
  });
  test("without it, is not spoken of", () =>
    expect(page(model, computedWithoutEngines())).not.toContain("Standard valves"));
  test("whose own job holds the pinch back, shows nothing made from it", () => {
    const held = { ...model, compared: model.compared.map((head) => ({ ...head, holdBack: ["pinch"] })) };
    const words = page(held);
    expect(words).toContain("0.78");
    expect(words).not.toMatch(/rpm \(Standard valves\)/);
  });
  test("of two heads, only the one whose job holds the pinch back is without it", () => {
    const late = { ...model.compared[0]!, label: "Late casting" };
    const beside = figures.comparisons.map((pair) => ({
      ...pair,
      from: isOther(pair) ? { ...pair.from, label: late.label } : pair.from,
    }));
    const both = { ...figures, comparisons: [...figures.comparisons, ...beside.filter(isOther)] };
    const words = page({ ...model, compared: [...model.compared, { ...late, holdBack: ["pinch"] }] }, both);
    expect(words).toMatch(/rpm \(Standard valves\)/);
    expect(words).toMatch(/4 ?300 rpm with Late casting/);
    expect(words).not.toMatch(/rpm \(Late casting\)/);
  });
  test("has the line style of the flow chart, also after a head of which only the exhaust was flowed", () => {
    const { intake: _, ...exhaustPort } = before;
    const exhaust = { rows: inclinedReceived.map(([lift, , flow]): Row => [lift, undefined, flow]) };
    const two = fullModel({
      compared: [
        { label: "Exhaust only", stage: { ...exhaustPort, runs: [exhaust] } },
        { label: "Standard valves", stage: before },
      ],
    });
    const sheet = sheetOf(two, only("flow-chart", "pinch-speed"));
    const styles = sheet.rows.flatMap(({ cells }) =>
      cells.flatMap(({ block: { parts } }) =>
        parts
          .flatMap((part) => (part.kind === "charts" ? part.charts : []))
          .flatMap(({ chart }) =>
            "series" in chart
              ? chart.series.filter(({ name }) => name === "Standard valves").map(({ style }) => style)
              : [],
          ),
      ),
    );
    expect(styles).toEqual([theme.series.others[1], theme.series.others[1], theme.series.others[1]]);
  });

  function computedWithoutEngines(): Figures {
    return {
      ...computed,
      comparisons: computed.comparisons.map(({ engine: _, ...pair }) => pair),
    };
  }
});

test("how often a lift was read is said of one cylinder, and of one mount", () => {
  const words = (stage: object) =>
    said(sheetOf(fullModel({ stages: [{ ...after, ...stage }] }), only("flow-table")), "flow-table");
  expect(words({})).toMatch(/n = 3(?! for)/);
  const read = computeFigures(model);
  const figures = {
    ...read,
    stages: read.stages.map((stage) => ({
      ...stage,
      ...(stage.intake && {
        intake: {
          ...stage.intake,
          flowed: { cylinders: [1, 2], n: 2, of: 6 },
          readings: stage.intake.readings.map((reading) => ({
            ...reading,
            of_cylinders: [1, 2],
            repeats: 2,
            mounts: 3,
          })),
        },
      }),
      exhaust: undefined,
    })),
  } as unknown as Figures;
  const strings = stringsOf(sheetOf(model, only("flow-table"), figures)).map(({ text }) =>
    text.replaceAll("\u00a0", " "),
  );
  expect(strings.join(" ")).toContain("n = 2 on each of 3 mounts for each cylinder");
});
