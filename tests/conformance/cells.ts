import { expect } from "vitest";
import { evaluateJob } from "../../src/pipeline/evaluate.ts";
import { templatesOf } from "../../src/pipeline/file-name.ts";
import { renderSheet, sheetContent } from "../../src/pipeline/render-sheet.ts";
import { kit } from "../whole/demo.ts";
import { contentFaults } from "./cell-faults.ts";
import { figureFaults } from "./figure-faults.ts";
import { readPdf } from "./pdf-file.ts";
import { readTables } from "./read-tables.ts";

/**
 * Reads every table of a job's sheets back from the structure tree and holds each cell, with its row, column and caption, to the
 * sheet's content, and each flow, change and ± to the figures. Returns how many numbers were held to a figure, by template.
 */
export async function readCellsBack(path: string): Promise<ReadonlyMap<string, number>> {
  const { drawable } = evaluateJob(path, {}, kit.io);
  const counts = new Map<string, number>();
  for (const template of templatesOf(drawable!.project, {})) {
    const { sheet } = sheetContent(drawable!, template, {}, kit);
    const { pdf } = await renderSheet(drawable!, template, {}, kit);
    const tables = readTables(readPdf(Buffer.from(pdf!)));
    expect([template, contentFaults(sheet!, tables)]).toEqual([template, []]);
    const { count, faults } = figureFaults(drawable!.figures, drawable!.model.units, tables);
    expect([template, faults]).toEqual([template, []]);
    counts.set(template, count);
  }
  return counts;
}
