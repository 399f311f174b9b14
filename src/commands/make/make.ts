import { join, resolve } from "node:path";
import { hasError } from "../../diagnostics/build.ts";
import { visible } from "../../diagnostics/visible.ts";
import { sha256Hex } from "../../io/sha256.ts";
import { describeSystemError, isSystemError } from "../../io/system-errors.ts";
import { removeStaleTempFiles } from "../../io/temporary-file.ts";
import { evaluateProject, type Overrides } from "../../pipeline/evaluate.ts";
import { templatesOf } from "../../pipeline/sheets-of-job.ts";
import { buildOf } from "../build-id.ts";
import type { Environment, ExitCode } from "../environment.ts";
import { findJobs, shortest } from "../find-jobs.ts";
import { counted, report } from "../report.ts";
import { writeOutput } from "../write-output.ts";
import { type MadeJob, type MadeSheet, openBuildRecord, readRecord, type Written } from "./build-record.ts";
import { checkIssued, type Standing, standingSheets } from "./check-issued.ts";
import { keyOf, type OpenJob, planBatch } from "./plan-batch.ts";

export type MakeOptions = Overrides & { readonly outFolder: string; readonly png: boolean; readonly force?: boolean };

/**
 * Makes the sheets of the jobs, but for those that stand there already and would come out the same. One bad job never stops
 * the rest and never touches the PDF that is there.
 */
export async function make(asked: readonly string[], options: MakeOptions, world: Environment): Promise<ExitCode> {
  const jobs = findJobs(asked, world);
  const folder = resolve(world.cwd, options.outFolder);
  const standing = standingSheets(folder, world.io);
  const build = buildOf(world);
  const record = options.force || build === undefined ? new Map() : readRecord(folder, build, world.io);
  const ahead = planBatch(jobs, { folder, standing, record }, options, world);
  removeStaleTempFiles(folder);
  const note = build === undefined ? () => {} : openBuildRecord(folder, build, world.io);
  const batch = { folder, standing, drawing: createDrawing(world) };
  const count = { written: 0, unchanged: 0, refused: 0, failed: 0 };
  for (const [index, job] of ahead.entries()) {
    if (world.terminal && jobs.length > 1)
      world.err(`\r\u001b[K${index + 1}/${jobs.length} ${visible(job.path)}\r\u001b[K`);
    if (job.kept) {
      reprintResult(job.kept, folder, options, world);
      count.unchanged += job.kept.sheets.length;
      continue;
    }
    const made = await makeJob(job.open(), batch, options, world);
    if (made === undefined) {
      count.refused++;
      continue;
    }
    const sheets: MadeSheet[] = [];
    for (const sheet of made.sheets) {
      const stands = await written(sheet, folder, options, world);
      if (stands) sheets.push(stands);
    }
    count.written += sheets.length;
    count.failed += made.sheets.length - sheets.length;
    if (sheets.length === made.sheets.length && !made.passing)
      note(keyOf(job.path, options, world), { queries: made.queries(), sheets, warnings: made.warnings });
  }
  const sum = [
    `${counted(count.written, "sheet")} written`,
    ...(count.unchanged > 0 ? [`${count.unchanged} unchanged`] : []),
    ...(count.refused > 0 ? [`${counted(count.refused, "job")} refused`] : []),
    ...(count.failed > 0 ? [`${counted(count.failed, "sheet")} could not be written`] : []),
  ];
  if (jobs.length > 1 || sum.length > 1) world.err(`${sum.join(", ")}\n`);
  return count.failed > 0 ? 2 : count.refused > 0 ? 1 : 0;
}

/** A sheet that stands is told like one just made: its path, and every doubt about its job. */
function reprintResult({ warnings, sheets }: MadeJob, folder: string, { png }: MakeOptions, world: Environment): void {
  if (warnings !== "") world.err(warnings.split("\n").map(visible).join("\n"));
  for (const { name, pictures = [] } of sheets)
    for (const file of [name, ...(png ? pictures.map((one) => one.name) : [])])
      world.out(`${shortest(world.cwd, join(folder, file))}\n`);
}

/** Where the sheets of a batch go, which stood there before, and what draws them. */
type Batch = {
  readonly folder: string;
  readonly standing: Standing;
  readonly drawing: ReturnType<typeof createDrawing>;
};
type Sheet = { readonly name: string; readonly pdf: Uint8Array };
type MadeNow = Pick<OpenJob, "queries"> & {
  readonly sheets: readonly Sheet[];
  readonly warnings: string;
  /** Something was said that holds this time only. */
  readonly passing: boolean;
};

/** All sheets of one job; undefined when it was refused. Nothing is written unless every sheet of it could be made. */
async function makeJob(
  { gathered, queries, io }: OpenJob,
  { folder, standing, drawing }: Batch,
  options: MakeOptions,
  world: Environment,
): Promise<MadeNow | undefined> {
  const { drawable, diagnostics, sources } = evaluateProject(gathered, options);
  let warnings = report(diagnostics, sources, world);
  if (!drawable) return undefined;
  const { renderSheet, kit } = await drawing();
  const sheets: Sheet[] = [];
  let passing = false;
  for (const template of templatesOf(drawable.project, options)) {
    const sheet = await renderSheet(drawable, template, options, { ...kit, io });
    warnings += report(sheet.diagnostics, new Map([...sources, ...sheet.sources]), world);
    if (!sheet.pdf || hasError(sheet.diagnostics)) return undefined;
    const issued = checkIssued(sheet.name, sheet.pdf, folder, standing, world.io);
    if (issued) report([issued], sources, world);
    if (issued?.severity === "error") return undefined;
    passing ||= issued !== undefined;
    sheets.push({ name: sheet.name, pdf: sheet.pdf });
  }
  return { sheets, warnings, queries, passing };
}

/** Loads what draws, and opens what all sheets share, when the first sheet is to be drawn. */
function createDrawing(world: Environment) {
  const load = async () => {
    const { renderSheet } = await import("../../pipeline/render-sheet.ts");
    const { openResources } = await import("../open-resources.ts");
    return { renderSheet, kit: openResources(world) };
  };
  let loaded: ReturnType<typeof load> | undefined;
  return () => {
    loaded ??= load();
    return loaded;
  };
}

/** A sheet as it now stands in its folder. What the disk will not take is said; the other sheets are tried all the same. */
async function written(
  { name, pdf }: Sheet,
  folder: string,
  options: MakeOptions,
  world: Environment,
): Promise<MadeSheet | undefined> {
  const file = join(folder, name);
  try {
    writeOutput(file, pdf, world);
    const sheet = { name, sum: sha256Hex(pdf) };
    return options.png ? { ...sheet, pictures: await writePages(name, pdf, folder, world) } : sheet;
  } catch (error) {
    if (!isSystemError(error)) throw error;
    world.err(`error: ${visible(describeSystemError(error))}\n`);
    return undefined;
  }
}

/** Each page beside its PDF, as it looks at 100 dots an inch. */
async function writePages(
  sheet: string,
  pdf: Uint8Array,
  folder: string,
  world: Environment,
): Promise<readonly Written[]> {
  const { pageImages } = await import("../page-images.ts");
  return (await pageImages(pdf, 100)).map((image, index) => {
    const name = sheet.replace(/\.pdf$/, `_${index + 1}.png`);
    writeOutput(join(folder, name), image, world);
    return { name, sum: sha256Hex(image) };
  });
}
