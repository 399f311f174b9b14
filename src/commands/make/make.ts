import { join, resolve } from "node:path";
import { hasError } from "../../diagnostics/build.ts";
import { visibleText } from "../../diagnostics/visible.ts";
import { sha256 } from "../../io/sha256.ts";
import { describeSystemError, isSystemError } from "../../io/system-errors.ts";
import { removeStaleTempFiles } from "../../io/temporary-file.ts";
import { evaluateProject, type Overrides } from "../../pipeline/evaluate.ts";
import { templatesOf } from "../../pipeline/file-name.ts";
import type { Environment, ExitCode } from "../environment.ts";
import { buildId } from "../environment.ts";
import { displayPath, findJobs } from "../find-jobs.ts";
import { countNoun, report, writeOutput } from "../report.ts";
import { type JobRecord, type OutputFile, openBuildRecord, readBuildRecord, type SheetRecord } from "./build-record.ts";
import { checkIssued, type ExistingSheets, listExistingSheets } from "./check-issued.ts";
import { type OpenJob, planBatch, recordKey } from "./plan-batch.ts";

export type MakeOptions = Overrides & { readonly outFolder: string; readonly png: boolean; readonly force?: boolean };

/**
 * Makes the sheets of the jobs, except those that exist and would come out unchanged. A refused job neither stops the batch nor
 * touches its existing PDF.
 */
export async function make(
  paths: readonly string[],
  options: MakeOptions,
  environment: Environment,
): Promise<ExitCode> {
  const jobs = findJobs(paths, environment);
  const folder = resolve(environment.cwd, options.outFolder);
  const existing = listExistingSheets(folder, environment.io);
  const build = buildId(environment);
  const record = options.force || build === undefined ? new Map() : readBuildRecord(folder, build, environment.io);
  const planned = planBatch(jobs, { folder, existing, record }, options, environment);
  removeStaleTempFiles(folder);
  const recordJob = build === undefined ? () => {} : openBuildRecord(folder, build, environment.io);
  const batch = { folder, existing, renderer: createRenderer(environment) };
  const count = { written: 0, unchanged: 0, refused: 0, failed: 0 };
  for (const [index, job] of planned.entries()) {
    if (environment.terminal && jobs.length > 1)
      environment.err(`\r\u001b[K${index + 1}/${jobs.length} ${visibleText(job.path)}\r\u001b[K`);
    if (job.unchanged) {
      reprintResult(job.unchanged, folder, options, environment);
      count.unchanged += job.unchanged.sheets.length;
      continue;
    }
    const result = await renderJob(job.open(), batch, options, environment);
    if (result === undefined) {
      count.refused++;
      continue;
    }
    const sheets: SheetRecord[] = [];
    for (const sheet of result.sheets) {
      const output = await writeSheet(sheet, folder, options, environment);
      if (output) sheets.push(output);
    }
    count.written += sheets.length;
    count.failed += result.sheets.length - sheets.length;
    if (sheets.length === result.sheets.length && !result.temporary)
      recordJob(recordKey(job.path, options, environment), {
        queries: result.queries(),
        sheets,
        warnings: result.warnings,
      });
  }
  const sum = [
    `${countNoun(count.written, "sheet")} written`,
    ...(count.unchanged > 0 ? [`${count.unchanged} unchanged`] : []),
    ...(count.refused > 0 ? [`${countNoun(count.refused, "job")} refused`] : []),
    ...(count.failed > 0 ? [`${countNoun(count.failed, "sheet")} could not be written`] : []),
  ];
  if (jobs.length > 1 || sum.length > 1) environment.err(`${sum.join(", ")}\n`);
  return count.failed > 0 ? 2 : count.refused > 0 ? 1 : 0;
}

/** Prints the paths and warnings of an unchanged job as if it had just been made. */
function reprintResult(
  { warnings, sheets }: JobRecord,
  folder: string,
  { png }: MakeOptions,
  environment: Environment,
): void {
  if (warnings !== "") environment.err(warnings.split("\n").map(visibleText).join("\n"));
  for (const { name, pictures = [] } of sheets)
    for (const file of [name, ...(png ? pictures.map((one) => one.name) : [])])
      environment.out(`${displayPath(environment.cwd, join(folder, file))}\n`);
}

/** What all jobs of a batch share: output folder, the sheets it held before, renderer. */
type Batch = {
  readonly folder: string;
  readonly existing: ExistingSheets;
  readonly renderer: ReturnType<typeof createRenderer>;
};
type RenderedSheet = { readonly name: string; readonly pdf: Uint8Array };
type JobResult = Pick<OpenJob, "queries"> & {
  readonly sheets: readonly RenderedSheet[];
  readonly warnings: string;
  /** A warning depends on the output folder, so the job must not be recorded as unchanged. */
  readonly temporary: boolean;
};

/** Renders all sheets of one job; undefined when any of them is refused. */
async function renderJob(
  { load, queries, io }: OpenJob,
  { folder, existing, renderer }: Batch,
  options: MakeOptions,
  environment: Environment,
): Promise<JobResult | undefined> {
  const { drawable, diagnostics, sources } = evaluateProject(load, options);
  let warnings = report(diagnostics, sources, environment);
  if (!drawable) return undefined;
  const { renderSheet, resources } = await renderer();
  const sheets: RenderedSheet[] = [];
  let temporary = false;
  for (const template of templatesOf(drawable.project, options)) {
    const sheet = await renderSheet(drawable, template, options, { ...resources, io });
    warnings += report(sheet.diagnostics, new Map([...sources, ...sheet.sources]), environment);
    if (!sheet.pdf || hasError(sheet.diagnostics)) return undefined;
    const issued = checkIssued(sheet.name, sheet.pdf, folder, existing, environment.io);
    if (issued) report([issued], sources, environment);
    if (issued?.severity === "error") return undefined;
    temporary ||= issued !== undefined;
    sheets.push({ name: sheet.name, pdf: sheet.pdf });
  }
  return { sheets, warnings, queries, temporary };
}

/** Imports the renderer and opens its resources on first use. */
function createRenderer(environment: Environment) {
  const load = async () => {
    const { renderSheet } = await import("../../pipeline/render-sheet.ts");
    const { openResources } = await import("../open-resources.ts");
    return { renderSheet, resources: openResources(environment) };
  };
  let loaded: ReturnType<typeof load> | undefined;
  return () => {
    loaded ??= load();
    return loaded;
  };
}

/** Writes a sheet; on a system error reports it and returns undefined, so that the other sheets are still written. */
async function writeSheet(
  { name, pdf }: RenderedSheet,
  folder: string,
  options: MakeOptions,
  environment: Environment,
): Promise<SheetRecord | undefined> {
  const file = join(folder, name);
  try {
    writeOutput(file, pdf, environment);
    const sheet = { name, sum: sha256(pdf) };
    return options.png ? { ...sheet, pictures: await writePageImages(name, pdf, folder, environment) } : sheet;
  } catch (error) {
    if (!isSystemError(error)) throw error;
    environment.err(`error: ${visibleText(describeSystemError(error))}\n`);
    return undefined;
  }
}

/** Writes each page as a picture beside its PDF, at 100 dots an inch. */
async function writePageImages(
  sheet: string,
  pdf: Uint8Array,
  folder: string,
  environment: Environment,
): Promise<readonly OutputFile[]> {
  const { pageImages } = await import("../../raster/page-renderer.ts");
  return (await pageImages(pdf, 100)).map((image, index) => {
    const name = sheet.replace(/\.pdf$/, `_${index + 1}.png`);
    writeOutput(join(folder, name), image, environment);
    return { name, sum: sha256(image) };
  });
}
