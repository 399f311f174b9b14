import { beforeAll, expect, test } from "vitest";
import { sheetContent } from "../../src/pipeline/render-sheet.ts";
import { demo, kit, makeWhole, type Whole } from "../whole/demo.ts";
import { contentFaults, wantedTables } from "./cell-faults.ts";
import { readCellsBack } from "./cells.ts";
import { figureFaults } from "./figure-faults.ts";
import { edited } from "./harm.ts";
import { get, readPdf } from "./pdf-file.ts";
import { readTables } from "./read-tables.ts";
import { grids } from "./table-grid.ts";
import { isKind } from "./values.ts";

// All demo sheets are read back in the slow tier.
test("a handover of one port with nothing to compare: each cell under its heads, each reading in the figures", async () => {
  expect((await readCellsBack(demo("fennick/f-207.yaml"))).get("handover")).toBeGreaterThan(20);
});

let whole: Whole;
beforeAll(async () => {
  whole = await makeWhole(demo("alder-lane/2026-014.yaml"));
});
const faultsOf = (bytes: Buffer) => {
  const { drawable } = whole;
  const tables = readTables(readPdf(bytes));
  const { sheet } = sheetContent(drawable, "handover", {}, kit);
  const { count, faults } = figureFaults(drawable.figures, drawable.model.units, tables);
  return { count, figures: faults.length, content: contentFaults(sheet!, tables).length };
};

test("a handover before and after: every flow, change and ± of its table is that of the figures", () => {
  const { sheet } = sheetContent(whole.drawable, "handover", {}, kit);
  const [{ table }] = wantedTables(sheet!) as [ReturnType<typeof wantedTables>[number]];
  const readings = table.rows.filter(([head]) => /\d/.test(head!.text)).flatMap(([, ...cells]) => cells);
  const numbers = readings.flatMap(({ text, plusMinus = "" }) => [text, plusMinus].filter((one) => /\d/.test(one)));
  expect(numbers.length).toBeGreaterThan(60);
  expect(faultsOf(Buffer.from(whole.pdf))).toEqual({ figures: 0, content: 0, count: numbers.length });
});

test("two readings that change places are found", () => {
  const swapped = edited((file) => {
    const [one, other] = readings(file);
    const [a, b] = [one!.dict.entries.get("K")!, other!.dict.entries.get("K")!];
    one!.dict.entries.set("K", b);
    other!.dict.entries.set("K", a);
  })(Buffer.from(whole.pdf));
  expect(faultsOf(swapped)).toMatchObject({ figures: 2, content: 2 });
});

test("a reading that names the head of another stage is found", () => {
  const misled = edited((file) => {
    const [one, other] = readings(file);
    const attributes = get(file, one!.dict.entries.get("A"));
    if (!isKind(attributes, "dict")) throw new Error("no attributes");
    attributes.entries.set("Headers", get(file, other!.dict.entries.get("A"), "Headers")!);
  })(Buffer.from(whole.pdf));
  expect(faultsOf(misled)).toMatchObject({ figures: 1, content: 1 });
});

/** The first two readings of a row of the table of flows. */
const readings = (file: Parameters<typeof grids>[0]) =>
  grids(file)[0]!
    .cells.filter(({ head, row, column }) => !head && row === 4 && column > 0)
    .map(({ cell }) => cell);
