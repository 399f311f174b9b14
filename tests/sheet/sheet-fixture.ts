import { readFileSync } from "node:fs";
import { computeFigures } from "../../src/figures/compute-figures.ts";
import type { Figures } from "../../src/figures/figures.ts";
import { readTemplate } from "../../src/job/read-template.ts";
import type { Model } from "../../src/model/model.ts";
import { BLOCKS } from "../../src/sheet/blocks.ts";
import { buildSheet } from "../../src/sheet/build-sheet.ts";
import type { Sheet } from "../../src/sheet/content.ts";
import { placeBlocks, type Template } from "../../src/sheet/template.ts";
import { makeTheme } from "../../src/theme/make-theme.ts";
import { cubicMetres, kelvin, newtons, pascals, ratio, rpm, squareMetres } from "../../src/units/quantity.ts";
import { inclinedFinished, inclinedReceived } from "../figures/demo-heads.ts";
import {
  degrees,
  describedPort,
  inches,
  millimetres,
  modelOf,
  type Row,
  type Sketch,
} from "../figures/model-fixture.ts";

/** One of the templates we ship. */
export function templateOf(name: string): Template {
  const file = `templates/${name}.yaml`;
  const text = readFileSync(new URL(`../../${file}`, import.meta.url), "utf8");
  const { template, diagnostics } = readTemplate(file, text, Object.keys(BLOCKS));
  if (!template) throw new Error(diagnostics.map(({ message }) => message).join("\n"));
  return placeBlocks(template);
}

/** A template of all blocks: a handover, then the engine builder's sheet. */
export function fullTemplate(): Template {
  const handover = templateOf("handover");
  const more = templateOf("engine").rows.filter(
    ({ cells }) => !cells.some(({ block }) => /^(masthead|title)$/.test(block)),
  );
  return { ...handover, rows: [...handover.rows, ...more] };
}

/** A template of a few blocks, each in a row of its own. */
export const only = (...blocks: string[]): Template => ({
  name: "test",
  onePage: false,
  rows: blocks.map((block) => ({ cells: [{ block, from: 0, span: 6 }], newPage: false })),
});

export const theme = makeTheme({}).theme;

/** The sheet of a model, by the real figures unless others are given. */
export function sheetOf(
  model: Model,
  template: Template = fullTemplate(),
  figures: Figures = computeFigures(model),
): Sheet {
  return buildSheet({ model, figures, mark: "0f1e2d3c", template, theme }).sheet;
}

/** Every string of a sheet that is printed or read out, with the block it stands in. */
export function stringsOf(sheet: Sheet): readonly { readonly block: string; readonly text: string }[] {
  const own = {
    documentTitle: sheet.documentTitle,
    subject: sheet.subject,
    furniture: sheet.furniture,
    more: sheet.more,
  };
  const blocks = sheet.rows.flatMap((row) => row.cells.map((cell) => cell.block));
  return [
    ...walk(own).map((text) => ({ block: "sheet", text })),
    ...blocks.flatMap(({ name, parts }) => walk(parts).map((text) => ({ block: name, text }))),
  ];
}

/** Keys whose strings are for the machine: kinds, colours, marks, files, links. */
const MACHINE = new Set([
  "kind",
  "style",
  "color",
  "marker",
  "mark",
  "align",
  "image",
  "link",
  "axis",
  "dash",
  "signal",
  "verdictMark",
]);

function walk(value: unknown): readonly string[] {
  if (typeof value === "string") return [value];
  if (Array.isArray(value)) return value.flatMap(walk);
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => (MACHINE.has(key) ? [] : walk(inner)));
}

/** All numbers of a sheet. */
export function numbersOf(value: unknown): readonly number[] {
  if (typeof value === "number") return [value];
  if (Array.isArray(value)) return value.flatMap(numbersOf);
  return typeof value === "object" && value !== null ? Object.values(value).flatMap(numbersOf) : [];
}

/** All text of a block in one line; empty when the sheet lacks it. */
export const said = (sheet: Sheet, block: string): string =>
  stringsOf(sheet)
    .filter((item) => item.block === block)
    .map(({ text }) => text.replaceAll(/[\u00a0\u202f]/g, " "))
    .join(" | ");

/** Repeats of a sweep, each slightly different. */
export const repeated = (rows: readonly Row[], ...factors: number[]): readonly { rows: readonly Row[] }[] =>
  factors.map((factor) => ({
    rows: rows.map(
      ([lift, ...flows]) =>
        [lift, ...flows.map((flow) => (typeof flow === "number" ? flow * factor : flow))] as unknown as Row,
    ),
  }));

/** A job with everything a handover can show: invented inclined, before and after, three sweeps each. */
export const fullSketch: Sketch = {
  lifts: "mm",
  bench: {
    name: "the alder bench",
    boreFixture: millimetres(88),
    intakeEntry: "clay radius",
    air: { temperature: kelvin(294.15), pressure: pascals(100900), relativeHumidity: ratio(0.45) },
    accuracy: ratio(0.015),
    remount: ratio(0.014),
    checked: "2026-02-01",
    against: "a plate of 150 cfm",
  },
  report: { holdBack: [] },
  engine: {
    name: "Straight six, 2.8",
    cylinders: 6,
    bore: millimetres(88),
    stroke: millimetres(76),
    rodLength: millimetres(135),
    gasket: { kind: "volume", volume: cubicMetres(7.4e-6) },
    piston: { dish: cubicMetres(5e-6), belowDeck: millimetres(0.4) },
    rpm: { from: rpm(2500), to: rpm(7000) },
    cams: {
      intake: { netLift: millimetres(10.5), duration: degrees(246), at: millimetres(1.27), of: "valve" },
      exhaust: { netLift: millimetres(10.2), duration: degrees(240), at: millimetres(1.27), of: "valve" },
    },
  },
  stages: [
    {
      name: "As received",
      date: "2026-02-24",
      chambers: [53.1, 53.4],
      intake: describedPort({ valve: 44, stem: 8, throat: 37.5, seatWidth: 1.6, pinch: 920, volume: 104, length: 100 }),
      exhaust: describedPort({ valve: 38, stem: 8, throat: 32.5, seatWidth: 1.8, pinch: 730, volume: 66, length: 90 }),
      runs: repeated(inclinedReceived, 1, 1.004, 0.997),
    },
    {
      name: "Finished",
      date: "2026-03-12",
      chambers: [51.6, 51.7],
      deckCut: 0.006,
      intake: describedPort({
        valve: 46,
        stem: 8,
        throat: 40.5,
        seatWidth: 1.2,
        pinch: 1080,
        volume: 121,
        length: 100,
      }),
      exhaust: {
        ...describedPort({ valve: 39, stem: 8, throat: 34, seatWidth: 1.5, pinch: 790, volume: 70, length: 90 }),
        notRemeasured: ["port_length"],
      },
      runs: repeated(inclinedFinished, 1, 1.003, 0.998),
    },
  ],
  text: {
    customer: {
      name: "Harbour Garage",
      address: ["2 Quay Lane", "Port Alder"],
      phone: "0123 555 0147",
      email: "desk@harbour.example",
      reference: "HG 118",
    },
    head: {
      name: "Harbour inclined",
      casting: "A-771",
      stamped: "4471",
      material: "aluminium",
      condition: "Complete, one guide loose",
      numbering: "cylinder 1 at the timing side",
    },
    work: [
      { area: "Intake ports", items: ["Bowls opened and blended to the seat", "Short side laid back"] },
      { area: "Exhaust ports", items: ["Guide bosses trimmed"] },
      { area: "Valve job", items: ["Seats cut at three angles", "46 mm intake valves fitted"] },
      { area: "Deck", items: ["Cut 0.15 mm for flatness"] },
    ],
    notDone: ["Guides not replaced", "Water jackets not inspected"],
    checks: [
      { check: "Crack test", method: "dye penetrant", result: "none" },
      { check: "Flatness", value: "0.02 mm", limit: "0.05 mm", result: "within" },
    ],
    parts: [{ part: "Intake valve", quantity: "6", note: "46 mm, stainless" }],
    springs: {
      installedHeight: millimetres(39.6),
      seatForce: newtons(370),
      openForce: newtons(950),
      openAt: millimetres(11),
      coilBind: millimetres(26),
      retainerToSeal: millimetres(13),
    },
    delivered: "assembled",
    remarks: "The short side was the work that paid.",
  },
};

/** Of a sketch, with what a shop and a customer add. */
export function fullModel(changes: Partial<Sketch> = {}): Model {
  const model = modelOf({ ...fullSketch, ...changes });
  return {
    ...model,
    identity: { ...model.identity, title: "Harbour inclined", received: "2026-02-20" },
    shop: {
      name: "Alder Lane Heads",
      strapline: "Ports, seats and bowls",
      address: ["4 Alder Lane", "Port Alder"],
      phone: "+44 1632 555 012",
      email: "bench@alderlane.example",
      web: "alderlane.example",
      responsible: "R. Marsh",
      cautions: [],
    },
  };
}

export { inches, squareMetres };
