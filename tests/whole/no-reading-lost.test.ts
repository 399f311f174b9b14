import { expect, test } from "vitest";
import { formatReadingsCsv } from "../../src/embed/readings-csv.ts";
import { computeFigures } from "../../src/figures/compute-figures.ts";
import type { Table } from "../../src/sheet/content.ts";
import { createDisplay } from "../../src/sheet/display.ts";
import { modelOf } from "../figures/model-fixture.ts";
import { fc } from "../figures/seeded.ts";
import {
  average,
  cfm,
  generatedRuns,
  inches,
  LIFTS,
  type PortRun,
  plainPorts,
  readCell,
  sketchRuns,
} from "../figures/side/generated-heads.ts";
import { sheetOf, stringsOf, templateOf } from "../sheet/sheet-fixture.ts";

const handover = templateOf("handover");
const display = createDisplay(modelOf({}).units, LIFTS.map(inches), 343);

/** Two stages, so that also an earlier one is looked at. */
const heads = fc.tuple(generatedRuns, generatedRuns).filter((all) => all.every((runs) => plainPorts(runs).length > 0));
const modelFrom = (all: readonly (readonly PortRun[])[]) =>
  modelOf({ stages: all.map((runs, k) => ({ name: `Stage ${k + 1}`, intake: {}, runs: sketchRuns(runs) })) });

test("every reading of a generated job is in the CSV, with its cylinder", () => {
  fc.assert(
    fc.property(heads, (all) => {
      const figures = computeFigures(modelFrom(all));
      const [, ...lines] = formatReadingsCsv(figures, modelOf({}).units).trim().split("\n");
      const rows = lines.map((line) => line.split(","));
      for (const [k, runs] of all.entries())
        for (const { cylinder, hand = "", mount, rows: typed } of runs)
          for (const [lift, cell] of typed) {
            const read = readCell(cell);
            if (read === undefined) continue;
            const found = rows.findIndex(
              ([stage, , side, at, flow, , , , row, ...port]) =>
                stage === `Stage ${k + 1}` &&
                side === "intake" &&
                (row === "typed" || row === "single") &&
                Math.abs(Number(at) - lift) < 1e-6 &&
                Math.abs(Number(flow) - read.value) < 1e-3 &&
                port.join() === [cylinder, hand, mount].join(),
            );
            expect(found, `${lift} ${cell} of ${cylinder} ${hand}`).toBeGreaterThan(-1);
            // Each row stands for one reading.
            rows.splice(found, 1);
          }
    }),
    { numRuns: 100 },
  );
});

test("and on the sheet: in a mean of the flow table, port to port, or among what was left out", () => {
  fc.assert(
    fc.property(heads, (all) => {
      const model = modelFrom(all);
      const figures = computeFigures(model);
      const sheet = sheetOf(model, handover, figures);
      const blocks = sheet.rows.flatMap(({ cells }) => cells.map(({ block }) => block));
      const tables = (name: string) =>
        blocks.flatMap((one) =>
          one.name === name ? one.parts.filter((part): part is Table => part.kind === "table") : [],
        );
      const said = stringsOf(sheet).map(({ text }) => text);
      for (const [k, runs] of all.entries()) {
        const { readings, hand = "" } = figures.stages[k]!.intake!;
        const title = `Flow of each cylinder${k === 0 ? ", Stage 1" : ""}`;
        for (const port of plainPorts(runs))
          for (const lift of LIFTS) {
            const values = port.good.get(lift) ?? port.doubtful.get(lift);
            if (values === undefined) continue;
            const atLift = display.digits("lift", inches(lift));
            const row = readings.find(({ lift_m }) => Math.abs(lift_m - inches(lift)) < 1e-9);
            const inMean =
              row?.of_cylinders?.includes(port.cylinder) &&
              port.hand === hand &&
              !row?.doubtful === port.good.has(lift);
            const printed = inMean
              ? tables("flow-table").some(({ rows, columns }) => {
                  const column = columns.findIndex((one) => one.title.startsWith(`Stage ${k + 1}`));
                  const cells = rows.find(([first]) => first!.text === atLift);
                  return cells?.[column]?.text.startsWith(display.digits("flow", row?.flow_m3_s ?? 0));
                })
              : tables("cylinders").some(({ rows, columns, title: own }) => {
                  const name = `${port.cylinder}${port.hand && ` ${port.hand}`}`;
                  const column = columns.findIndex((one) => one.title === name);
                  const cells = rows.find(([first]) => first!.text === atLift);
                  return (
                    own === title && cells?.[column]?.text.startsWith(display.digits("flow", cfm(average(values))))
                  );
                });
            expect(printed, `${lift} of ${port.key} in stage ${k + 1}`).toBe(true);
            // A doubtful reading beside a good one of its port is told by itself.
            if (!port.good.has(lift)) continue;
            for (const value of port.doubtful.get(lift) ?? [])
              expect(said.some((text) => text.includes(`${display.full("flow", cfm(value))} doubtful, not used`))).toBe(
                true,
              );
          }
      }
    }),
    { numRuns: 60 },
  );
});
