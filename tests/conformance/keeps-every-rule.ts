import { expect } from "vitest";
import { evaluateJob } from "../../src/pipeline/evaluate.ts";
import { templatesOf } from "../../src/pipeline/file-name.ts";
import { renderSheet } from "../../src/pipeline/render-sheet.ts";
import { kit } from "../whole/demo.ts";
import { check } from "./check.ts";

/** Room for a sheet beside its photos [bytes]. */
const SIZE = 120_000;

/** Makes every sheet of a job with all inside that may be, and holds each to every rule and to its size. */
export async function keepsEveryRule(path: string): Promise<void> {
  const { drawable } = evaluateJob(path, {}, kit.io);
  const { model } = drawable!;
  const open = { ...drawable!, model: { ...model, report: { ...model.report, embed: "job" as const } } };
  const photos = [...open.project.images.values()].reduce((sum, { length }) => sum + length, 0);
  for (const template of templatesOf(open.project, {})) {
    const { pdf } = await renderSheet(open, template, {}, kit);
    expect([template, check(Buffer.from(pdf!))]).toEqual([template, []]);
    expect(pdf!.length).toBeLessThan(SIZE + photos);
  }
}
