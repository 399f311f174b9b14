import { join } from "node:path";
import { compileShapes } from "../../src/charts/compile-shapes.ts";
import { openShapes } from "../../src/charts/scenegraph.ts";
import { disk } from "../../src/io/disk.ts";
import { openFonts } from "../../src/pdf/font/fonts.ts";
import { type Evaluation, evaluateJob, type Overrides } from "../../src/pipeline/evaluate.ts";
import { templatesOf } from "../../src/pipeline/file-name.ts";
import { type RenderedSheet, type Resources, renderSheet } from "../../src/pipeline/render-sheet.ts";
import { listJobs } from "../../src/project/list-jobs.ts";
import { createLoadCache } from "../../src/project/load-cache.ts";
import { createDownscale } from "../../src/raster/fit-photo.ts";

export const ROOT = new URL("../..", import.meta.url).pathname;

/** As the program opens it, from the sources instead of the build. */
export const kit: Resources = {
  io: disk,
  fonts: openFonts(),
  shapes: openShapes(compileShapes()),
  downscale: createDownscale(),
  templates: join(ROOT, "templates"),
  cache: createLoadCache(),
  version: "0.0.0",
};

export const demoJobs = listJobs(join(ROOT, "jobs"), disk);
export const demo = (name: string): string => join(ROOT, "jobs", name);

export type Whole = RenderedSheet & {
  readonly pdf: Uint8Array;
  readonly drawable: NonNullable<Evaluation["drawable"]>;
  readonly told: Evaluation["diagnostics"];
};

/** Makes one sheet of a job, from its file to its bytes; throws when it is refused. */
export async function makeWhole(path: string, asked: Overrides = {}, resources = kit): Promise<Whole> {
  const { drawable, diagnostics } = evaluateJob(path, asked, disk);
  if (!drawable) throw new Error(`refused: ${JSON.stringify(diagnostics)}`);
  const made = await renderSheet(drawable, templatesOf(drawable.project, asked)[0]!, asked, resources);
  if (!made.pdf) throw new Error(`not made: ${JSON.stringify(made.diagnostics)}`);
  return { ...made, pdf: made.pdf, drawable, told: [...diagnostics, ...made.diagnostics] };
}
