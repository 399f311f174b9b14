import { describe, expect, test } from "vitest";
import { computeFigures } from "../../src/figures/compute-figures.ts";
import { shareRow } from "../../src/layout/share-row.ts";
import { buildSheet } from "../../src/sheet/build-sheet.ts";
import type { Table } from "../../src/sheet/content.ts";
import { placeBlocks } from "../../src/sheet/template.ts";
import { inclinedFinished, inclinedReceived } from "../figures/demo-heads.ts";
import { describedPort, millimetres, portOf, type Row, rowsOf } from "../figures/model-fixture.ts";
import {
  fullModel,
  fullSketch,
  fullTemplate,
  numbersOf,
  only,
  repeated,
  said,
  sheetOf,
  stringsOf,
  templateOf,
  theme,
} from "./sheet-fixture.ts";

const before = fullSketch.stages![0]!;
const after = fullSketch.stages![1]!;
const tables = (block: string, model = fullModel()): readonly Table[] =>
  sheetOf(model, only(block)).rows.flatMap((row) =>
    row.cells.flatMap(({ block: { parts } }) => parts.filter((part) => part.kind === "table")),
  );
const shows = (model = fullModel(), ...blocks: string[]) =>
  blocks.map((block) => said(sheetOf(model, only(block)), block)).join(" ");

describe("the handover of a full job", () => {
  const sheet = sheetOf(fullModel());
  test("leads with flow at the cam's lift, before and after, and its verdict", () => {
    expect(said(sheet, "flow-panels")).toMatch(
      /Intake at your cam's lift, 10\.5 mm \| 196 \| cfm \| clear gain \| was 160; at this lift \+\d/,
    );
    expect(shows(fullModel(), "headline")).toMatch(
      /Intake at your cam's lift, 10\.5 mm \| 196\.\d \| cfm \| was 159\.\d, between readings \| clear gain/,
    );
  });
  test("states what was done, what changed and what comes next", () => {
    expect(said(sheet, "lead")).toMatch(/Intake flow is up 18\.0 % \| \(± \d\.\d\) \|/);
    const words = shows(fullModel(), "summary");
    expect(words).toMatch(/Work on intake ports, exhaust ports, valve job and deck\./);
    expect(words).toMatch(/Intake flow: 18\.0 % up \(± \d\.\d %\) on average, a clear gain\./);
    expect(words).toMatch(/Before it runs, measure valve to piston and valve to valve\./);
  });
  test("side 2 begins a new page; side 1 states neither power nor engine speed", () => {
    const start = sheet.rows.findIndex((row) => row.newPage);
    expect(sheet.rows[start]?.cells[0]?.block.name).toBe("change-strips");
    const side1 = stringsOf({ ...sheet, rows: sheet.rows.slice(0, start) })
      .map(({ text }) => text)
      .join(" ");
    expect(side1).not.toMatch(/rpm|Air for at most/);
  });
  test("no table has more than nine columns, and every row is as wide as its head", () => {
    const all = sheet.rows.flatMap((row) =>
      row.cells.flatMap(({ block }) => block.parts.filter((part) => part.kind === "table")),
    );
    expect(all.length).toBeGreaterThan(4);
    for (const table of all) {
      expect(table.columns.length).toBeLessThanOrEqual(9);
      for (const row of table.rows) expect(row.length).toBe(table.columns.length);
      if (table.groups) expect(table.groups.reduce((sum, { span }) => sum + span, 0)).toBe(table.columns.length);
    }
  });
  test("decimals are uniform down a column of flows", () => {
    const flow = tables("flow-table")[0]!;
    for (const [c, column] of flow.columns.entries()) {
      const places = flow.rows
        .slice(0, -1)
        .map((row) => row[c]!.text)
        .filter((text) => text !== "–")
        .map((text) => text.split(".")[1]?.length ?? 0);
      expect(new Set(places).size, column.title).toBe(1);
    }
  });
  test("the page is tied to its part", () => {
    expect(sheet.furniture.left).toBe("2026-014 · revision 1 · issued 18 March 2026");
    expect(sheet.documentTitle).toBe("Cylinder head sheet 2026-014, Harbour inclined");
  });
  test("both panels share axes, from zero, and colour says stage", () => {
    const charts = sheetOf(fullModel(), only("flow-chart")).rows.flatMap((row) =>
      row.cells.flatMap(({ block }) => (block.name === "flow-chart" ? block.parts : [])),
    );
    const panels = charts.flatMap((part) => (part.kind === "charts" ? part.charts.map(({ chart }) => chart) : []));
    expect(panels).toHaveLength(2);
    const [intake, exhaust] = panels;
    if (intake?.kind !== "line" || exhaust?.kind !== "line") throw new Error("flow is drawn as lines");
    expect([intake.x, intake.y]).toEqual([exhaust.x, exhaust.y]);
    expect(intake.y.start).toBe(0);
    expect(intake.series.map(({ style }) => style.color)).toEqual(exhaust.series.map(({ style }) => style.color));
    expect(intake.series.at(-1)?.points.every((point) => point.plusMinus !== undefined)).toBe(true);
    expect(intake.series[0]?.points.every((point) => point.plusMinus === undefined)).toBe(true);
    expect(intake.marks).toEqual([{ axis: "x", at: expect.closeTo(10.5, 6), label: "your cam" }]);
    // Lift ÷ diameter 0.1 of a 46 mm valve stands at 4.6 mm.
    expect(intake.top?.ticks[0]).toEqual({ at: expect.closeTo(4.6, 6), label: "0.1" });
  });
  test("conditions stand beside the numbers", () => {
    const words = `${said(sheet, "flow-table")} ${said(sheet, "conditions")}`;
    for (const part of [
      "28 inH₂O",
      "fixture bore 88.0 mm",
      "intake entry clay radius",
      "exhaust pipe not stated",
      "air 70 °F",
      "leakage not stated",
      "n = 3",
      "flowed 1 of 6 ports",
    ]) {
      expect(words).toContain(part);
    }
  });
  test("what was not re-measured says so", () =>
    expect(shows(fullModel(), "dimensions")).toMatch(/90\.0\s‡[\s\S]*‡ Not re-measured\./));
  test("compression names what it rests on", () => {
    expect(said(sheet, "set-up")).toContain("with the gasket and piston stated by the customer");
  });
  test("a peak above the cam's lift is labelled as beyond it", () =>
    expect(said(sheet, "curve-notes")).toMatch(/Intake peak: 202\.\d cfm at 12\.0 mm, beyond your cam/));
  test("engine speeds are a band with their caution in the same block", () => {
    expect(said(sheet, "pinch-speed")).toMatch(/0\.45 to 0\.55 of the speed of sound\. Met at \d+ to \d+ rpm/);
    expect(said(sheet, "pinch-speed")).toMatch(/says nothing of what the engine's parts will stand/);
  });
});

describe("claims of change", () => {
  const once = fullModel({
    stages: [
      { ...before, runs: repeated(inclinedReceived, 1) },
      { ...after, runs: repeated(inclinedFinished, 1) },
    ],
  });
  test("one sweep a stage: not judged, and no change is printed anywhere", () => {
    const sheet = sheetOf(once);
    for (const block of ["lead", "flow-panels"])
      expect(said(sheet, block), block).toMatch(/not judged|too few repeats/i);
    expect(shows(once, "headline")).toContain("flowed once each time: not judged");
    const words = stringsOf(sheet)
      .map(({ text }) => text)
      .join(" ");
    expect(words).not.toMatch(/clear gain\b(?!, clear loss)/);
    expect(words).not.toMatch(/[+−]\d+\.\d/);
    expect(said(sheet, "change-chart")).toBe("");
  });
  test("no gain: within repeatability, and no caution about more air", () => {
    const nearly = inclinedReceived.map(
      ([lift, i, e]) => [lift, (i as number) * 1.004, (e as number) * 1.003] as unknown as Row,
    );
    const model = fullModel({
      stages: [before, { ...after, chambers: [53.1, 53.4], runs: repeated(nearly, 1, 1.003, 0.998) }],
    });
    const sheet = sheetOf(model);
    expect(shows(model, "headline")).toContain("within repeatability");
    expect(shows(model, "summary")).toContain("did not clearly change");
    expect(said(sheet, "lead")).toContain("ny change of");
    expect(said(sheet, "cautions")).not.toContain("More air");
  });
  test("a clear loss is stated as a loss", () => {
    const sheet = sheetOf(
      fullModel({
        stages: [
          { ...before, runs: after.runs! },
          { ...after, runs: before.runs! },
        ],
      }),
    );
    expect(said(sheet, "lead")).toMatch(/down .*clear loss/);
    expect(said(sheet, "compared")).toMatch(/−\d+\.\d/);
  });
  test("unlike conditions are said where it compares", () => {
    const open = { ...after, bench: { intakeEntry: "none" } };
    for (const block of ["headline", "flow-chart", "flow-table", "compared", "change-chart", "summary"]) {
      expect(shows(fullModel({ stages: [before, open] }), block), block).toMatch(/not like for like/);
    }
  });
  test("a comparison with another head never says gain", () => {
    const model = fullModel({ compared: [{ label: "Standard valves", stage: before }] });
    const words = said(sheetOf(model, only("other-heads")), "other-heads");
    expect(words).toContain("clearly higher");
    expect(words).not.toMatch(/\bgain|\bloss/);
  });
  test("a head flowed under other conditions says so beside its curve and in its verdict", () => {
    const open = { ...before, bench: { intakeEntry: "none" } };
    const model = fullModel({ compared: [{ label: "Standard valves", stage: open }] });
    expect(said(sheetOf(model, only("other-heads")), "other-heads")).toContain("no verdict, conditions differ");
    expect(shows(model, "flow-chart")).toContain("Standard valves: other conditions, not like for like.");
    const alike = fullModel({ compared: [{ label: "Standard valves", stage: before }] });
    for (const block of ["other-heads", "flow-chart"]) expect(shows(alike, block)).not.toMatch(/conditions/);
  });
  test("power is not on side 1, and is labelled as an upper bound on air", () => {
    const model = fullModel({ report: { powerPerFlow: 406000 as never } });
    expect(said(sheetOf(model), "engine-air")).toMatch(/Air for at most about \d+ hp \(rule of thumb, bare head\)\./);
    expect(said(sheetOf(model, only("engine-air")), "engine-air")).toBe("");
    expect(said(sheetOf(fullModel()), "engine-air")).not.toContain("Air for at most");
  });
  test("springs that bind are never called set up", () => {
    const springs = { ...fullModel().text.springs!, coilBind: millimetres(31) };
    const sheet = sheetOf(fullModel({ text: { ...fullSketch.text, springs } }));
    expect(said(sheet, "cautions")).toContain("the springs leave no room");
    expect(
      stringsOf(sheet)
        .map(({ text }) => text)
        .join(" "),
    ).not.toMatch(/set up for/i);
  });
});

describe("readings with marks", () => {
  const marked: readonly Row[] = [
    [1, 24, 21],
    [2, "48?", 41],
    [4, 97, "-"],
    [6, "141!", 111],
    [8, "~174", 129],
    [10, 193, 138],
  ];
  const words = shows(fullModel({ stages: [{ ...after, runs: [{ rows: marked }] }] }), "flow-table", "flow-chart");
  test("doubtful, unsteady, missing and struck out readings have different marks", () => {
    for (const part of [
      "48.0?",
      "141.0!",
      "? Doubtful: shown, not used.",
      "Finished, exhaust at 4.0 mm: no reading.",
      "Finished, intake at 8.0 mm: struck out.",
    ]) {
      expect(words).toContain(part);
    }
    expect(words).toContain("Struck through: doubtful");
  });
  test("converted readings say from what", () => {
    const converted = fullModel({ bench: { testPressure: 2490.8891 as never } });
    expect(shows(converted, "flow-table")).toMatch(/Converted from 10 inH₂O by the square-root rule/);
  });
});

describe("jobs of other shapes", () => {
  test("one stage: as found, nothing compared, nothing missing", () => {
    const found = fullModel({ stages: [before], text: { ...fullSketch.text, work: [] } });
    const sheet = sheetOf(found);
    expect(shows(found, "summary")).toContain("We measured this head; this sheet lists no work.");
    expect(said(sheet, "lead")).toMatch(/^Measured as received: the intake flows/);
    for (const block of ["compared", "change-chart", "other-heads"]) expect(said(sheet, block)).toBe("");
    expect(said(sheet, "found-readings")).not.toMatch(/^$|Change/);
    expect(said(sheet, "flow-table")).toBe("");
    expect(
      stringsOf(sheet)
        .map(({ text }) => text)
        .join(" "),
    ).not.toMatch(/clear gain|clear loss/i);
  });
  test("three stages: both sides in nine columns, first against last", () => {
    const roughed = {
      ...before,
      name: "Roughed",
      date: "2026-03-01",
      runs: repeated(inclinedReceived, 1.1, 1.104, 1.097),
    };
    const model = fullModel({ stages: [before, roughed, after] });
    const flow = tables("flow-table", model);
    const side = ["As received", "Roughed", "Finished", "Change"];
    expect(flow).toHaveLength(1);
    expect(flow[0]!.columns.map(({ title }) => title)).toEqual(["Lift (mm)", ...side, ...side]);
    // The row of the cam closes the table.
    expect(flow[0]!.rows.at(-2)?.[4]).toMatchObject({ text: "+40.0", plusMinus: expect.stringMatching(/^±\u00a0\d/) });
  });
  test("a stage measured again sets a floor, and is no before", () => {
    const again = {
      ...before,
      name: "Received, again",
      repeats: "As received",
      date: "2026-03-13",
      runs: repeated(inclinedReceived, 1.02, 1.023, 1.018),
    };
    const sheet = sheetOf(fullModel({ stages: [before, after, again] }));
    expect(said(sheet, "flow-panels")).toContain("clear gain");
    expect(said(sheet, "compared")).toMatch(/measured again without work, it moved \d\.\d %/);
  });
  test("one side alone leaves no hole", () => {
    const bare = (stage: typeof before) => {
      const { exhaust: _, ...rest } = stage;
      return {
        ...rest,
        runs: stage.runs!.map(({ rows }) => ({ rows: rows.map(([lift, intake]) => [lift, intake] as const) })),
      };
    };
    const sheet = sheetOf(fullModel({ stages: [bare(before), bare(after)] }));
    const words = stringsOf(sheet)
      .filter(({ block }) => !["parties", "facts-row", "hero", "job", "engine", "engine-row"].includes(block))
      .map(({ text }) => text)
      .join(" ");
    expect(words).not.toMatch(/exhaust(?! ports)/i);
  });
  test("no engine: low, mid and high lead, and nothing is made from an engine", () => {
    const { engine: _, ...model } = fullModel();
    const sheet = sheetOf(model, {
      ...fullTemplate(),
      rows: [...only("headline").rows, ...fullTemplate().rows],
    });
    expect(said(sheet, "headline")).toMatch(/at low lift.*at mid lift.*at high lift/);
    expect(
      stringsOf(sheet)
        .map(({ text }) => text)
        .join(" "),
    ).not.toMatch(/rpm|your cam|compression ratio/);
  });
  test("nothing but a name", () => {
    const model = fullModel({ stages: [], text: { head: { name: "Harbour inclined" } } });
    expect(shows(model, "summary")).toContain("it lists no work");
    expect(said(sheetOf(model), "title")).toContain("Harbour inclined");
  });
});

describe("what the shop holds back", () => {
  const lines = (text: string) => text.split("\n");
  const sectioned = portOf({
    ...after.intake,
    sections: [
      { at: millimetres(0), area: 1.4e-3 as never, name: "entry" },
      { at: millimetres(50), area: 1.083e-3 as never },
    ],
  });
  const model = (holdBack: string[]) =>
    fullModel({ report: { holdBack }, stages: [before, { ...after, intake: sectioned }] });
  const everything = (holdBack: string[]) =>
    stringsOf(sheetOf(model(holdBack)))
      .map(({ text }) => text)
      .join("\n");

  test("the pinch, gas speed, engine speeds and the sections that give it away", () => {
    expect(everything([])).toMatch(/pinch/i);
    const words = everything(["pinch"]);
    expect(words).not.toMatch(/pinch|smallest section|gas speed|along the port/i);
    expect(lines(words).filter((line) => /\b(920|1080|730|790)\b/.test(line))).toEqual([]);
    expect(numbersOf(sheetOf(model(["pinch"])).rows).filter((n) => Math.abs(n - 1083) < 0.5)).toEqual([]);
  });
  test("the seat's cuts and widths", () => {
    expect(everything([])).toMatch(/seat face width/i);
    expect(everything(["seat cuts"])).not.toMatch(/seat angle|seat width|top cut|bottom cut/i);
  });
  test("the port's volume, and the mean area that is made from it", () => {
    expect(everything([])).toMatch(/Port volume/);
    expect(everything(["port volume"])).not.toMatch(/port volume|mean port area/i);
  });
  test("the sections", () => {
    expect(everything([])).toContain("Area along the port");
    expect(everything(["sections"])).not.toContain("Area along the port");
  });
});

describe("a product", () => {
  const product = {
    part: "AL-771",
    name: "Harbour inclined, street",
    fits: ["Harbour straight six"],
    included: ["Valves"],
    notIncluded: ["Gasket"],
  };
  const sampled = (n: number) =>
    fullModel({
      kind: "product",
      stages: [],
      samples: Array.from({ length: n }, (_, i) => ({ ...after, runs: repeated(inclinedFinished, 1 + 0.01 * i) })),
      text: { product, customer: { name: "SECRET", address: [] } },
    });
  const words = (n: number) =>
    stringsOf(sheetOf(sampled(n), templateOf("catalogue")))
      .map(({ text }) => text)
      .join("\n");
  test("calls figures typical from three parts on", () => {
    expect(words(3)).toContain("Typical of 3 parts measured");
    expect(words(2)).toContain("Measured on 2 parts");
    expect(words(2)).not.toMatch(/typical/i);
    expect(words(3)).toContain("A single part may differ");
  });
  test("names no customer, and never shares the words of a head measured", () => {
    expect(words(3)).not.toMatch(/SECRET|was done|clear gain|this head/);
  });
  test("prints mean, lowest and highest", () => {
    const [table] = sheetOf(sampled(3), templateOf("catalogue")).rows.flatMap((row) =>
      row.cells.flatMap(({ block }) => block.parts.filter((part) => part.kind === "table")),
    );
    expect(
      table?.rows
        .at(-1)
        ?.map(({ text }) => text)
        .slice(0, 3),
    ).toEqual(["12.0", "204.0", "202.0–206.0"]);
  });
});

test("a template may place cautions but not leave them out", () => {
  expect(said(sheetOf(fullModel(), only("title")), "cautions")).toContain("measure valve to piston");
});

test("cells share a row equally; empty cells leave their room to the others", () => {
  const row = (...blocks: readonly { block: string; span?: number }[]) => {
    const sheet = sheetOf(fullModel(), placeBlocks({ name: "t", onePage: false, rows: [{ newPage: false, blocks }] }));
    const [{ cells, asked } = { cells: [] }] = sheet.rows;
    return shareRow(cells, asked ?? cells.length).map(({ from, span }) => [from, span]);
  };
  const all = rowsOf("0 2, 2 2, 4 2");
  expect(row({ block: "work" }, { block: "not-done" }, { block: "parts" })).toEqual(all);
  expect(row({ block: "photos" }, { block: "work" }, { block: "not-done" })).toEqual([
    [0, 3],
    [3, 3],
  ]);
  expect(row({ block: "work", span: 4 }, { block: "not-done" })).toEqual([
    [0, 4],
    [4, 2],
  ]);
});

test("an unknown block gives a warning and takes no room", () => {
  const model = fullModel();
  const { sheet, diagnostics } = buildSheet({
    model,
    figures: computeFigures(model),
    mark: "0f1e2d3c",
    template: only("title", "no-such"),
    theme,
  });
  expect(diagnostics.map(({ code }) => code)).toEqual(["sheet/unknown-block"]);
  expect(said(sheet, "no-such")).toBe("");
});

test("the same model makes the same sheet", () => {
  const model = fullModel();
  expect(sheetOf(model, fullTemplate(), computeFigures(model))).toEqual(sheetOf(model));
});

test("two valves a port are stated", () => {
  const port = describedPort({ valve: 34, valves: 2, stem: 5.5, throat: 30.3, seatWidth: 1 });
  expect(shows(fullModel({ stages: [{ ...after, intake: port }] }), "dimensions")).toMatch(
    /Valves in this port \| 2 .*Valves, each \(mm\) \| 34\.0/,
  );
});

test("sizes of three stages get a row of their own; of two they stand side by side", () => {
  const rows = [
    {
      cells: [
        { block: "dimensions", from: 0, span: 3 },
        { block: "valve-job", from: 3, span: 3 },
      ],
      newPage: false,
    },
  ];
  const template = { name: "test", onePage: false, rows };
  const model = fullModel();
  const own = model.stages.filter((stage) => stage.repeats === undefined);
  const spans = (stages: typeof model.stages) =>
    sheetOf({ ...model, stages }, template)
      .rows.slice(0, -1)
      .map(({ cells }) => cells.map(({ span }) => span));
  const third = { ...own[1]!, name: "Third" };
  expect(spans(own.slice(0, 2))).toEqual([[3, 3]]);
  expect(spans([...own.slice(0, 2), third])).toEqual([[6], [6]]);
});
