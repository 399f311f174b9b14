import { expect, test } from "vitest";
import type { Model, Port } from "../../src/model/model.ts";
import type { Sheet, TrueSizeRow } from "../../src/sheet/content.ts";
import { metres, radians } from "../../src/units/quantity.ts";
import { fullModel, fullSketch, only, said, sheetOf } from "./sheet-fixture.ts";

const blocks = only("valve-section", "pinch-outline", "chamber-plan");
const mm = (value: number) => metres(value / 1000);

/** The full job, each port with a stated outline, and valves in plan. */
function drawable(holdBack: readonly string[] = [], change: (port: Port) => Port = (port) => port): Model {
  const model = fullModel({ report: { holdBack } });
  const shaped = (port: Port | undefined) =>
    port && change({ ...port, pinch: { ...port.pinch!, shape: { width: mm(30), height: mm(40), corner: mm(5) } } });
  return {
    ...model,
    stages: model.stages.map((stage) => ({
      ...stage,
      ports: { intake: shaped(stage.ports.intake)!, exhaust: shaped(stage.ports.exhaust)! },
      layout: { bore: mm(88), intake: [[mm(-20), mm(1)]], exhaust: [[mm(24), mm(1)]], angle: { intake: radians(0.3) } },
    })),
  };
}

const figures = (sheet: Sheet, block: string) =>
  sheet.rows
    .flatMap(({ cells }) => cells)
    .filter((cell) => cell.block.name === block)
    .flatMap((cell) => cell.block.parts)
    .filter((part): part is TrueSizeRow => part.kind === "true-size")
    .flatMap((part) => part.figures);

test("a section for each side, its lift in the title, its sizes in the alternative text", () => {
  const drawn = figures(sheetOf(drawable(), blocks), "valve-section");
  expect(drawn.map(({ title }) => title.replaceAll("\u00a0", " "))).toEqual([
    "Intake at your cam's lift, 10.5 mm",
    "Exhaust at your cam's lift, 10.2 mm",
  ]);
  expect(drawn[0]!.alt.replaceAll("\u00a0", " ")).toMatch(/true size.*section.*Valve 46.0 mm/);
});

test("without a cam it stands at the highest lift flowed, and says so", () => {
  const model = drawable();
  const { cams: _, ...engine } = model.engine!;
  const [first] = figures(sheetOf({ ...model, engine: { ...engine, cams: {} } }, blocks), "valve-section");
  expect(first!.title.replaceAll("\u00a0", " ")).toBe("Intake at 12.0 mm, the highest lift flowed");
});

test.each([
  ["seat cuts", "valve-section"],
  ["pinch", "pinch-outline"],
] as const)("%s held back: no %s, and no word of it", (held, block) => {
  const sheet = sheetOf(drawable([held]), blocks);
  expect(said(sheet, block)).toBe("");
  const others = blocks.rows.map(({ cells }) => cells[0]!.block).filter((name) => name !== block);
  for (const other of others) expect(said(sheet, other)).not.toBe("");
});

test("a mere area, a stale throat, a missing stem: nothing is drawn", () => {
  const model = drawable([], ({ pinch, ...port }) => {
    const { shape: _, ...area } = pinch!;
    return { ...port, pinch: area };
  });
  expect(said(sheetOf(model, blocks), "pinch-outline")).toBe("");
  const stale = drawable([], (port) => ({ ...port, stale: ["throat"] }));
  expect(said(sheetOf(stale, blocks), "valve-section")).toBe("");
  const stemless = drawable([], (port) => ({ ...port, valves: port.valves.map(({ head }) => ({ head })) }));
  expect(said(sheetOf(stemless, blocks), "valve-section")).toBe("");
});

test("an outline that was not measured again is drawn once", () => {
  const again = drawable([], (port) => ({ ...port, notRemeasured: ["pinch"] }));
  expect(said(sheetOf(again, blocks), "pinch-outline")).toBe("");
  const [first] = figures(sheetOf(drawable(), blocks), "pinch-outline");
  expect(first!.drawing.shapes.map(({ stroke }) => stroke!.dash.length > 0)).toEqual([true, false]);
  expect(first!.alt).toContain("Finished is as wide and as high as As received.");
});

test("the plan never uses the word clearance", () => {
  const words = said(sheetOf(drawable(), blocks), "chamber-plan");
  expect(words).toMatch(/Valves shut, in plan/);
  expect(words).toMatch(/ellipses/);
  expect(words).not.toMatch(/clearance/i);
});

test("without layout there is no plan", () =>
  expect(said(sheetOf(fullModel(fullSketch), blocks), "chamber-plan")).toBe(""));
