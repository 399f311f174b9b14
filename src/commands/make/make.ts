import { join, resolve } from "node:path";
import { hasError } from "../../diagnostics/build.ts";
import type { Sources } from "../../diagnostics/diagnostic.ts";
import { visibleText } from "../../diagnostics/visible.ts";
import { makeFolder } from "../../io/make-folder.ts";
import { sha256 } from "../../io/sha256.ts";
import { describeSystemError, isSystemError } from "../../io/system-errors.ts";
import { removeStaleTempFiles } from "../../io/temporary-file.ts";
import { evaluateProject, type Overrides } from "../../pipeline/evaluate.ts";
import { sheetFileName, templatesOf } from "../../pipeline/file-name.ts";
import type { Environment, ExitCode } from "../environment.ts";
import { buildId } from "../environment.ts";
import { displayPath, findJobs } from "../find-jobs.ts";
import {
  checkIssue,
  checkStanding,
  enterIssue,
  frozenError,
  frozenNote,
  issueOf,
  type JobIssue,
} from "../issued/check-issue.ts";
import { readSheet } from "../issued/issued-sheets.ts";
import { openRegisters, type Registers } from "../issued/register.ts";
import { createRenderer } from "../renderer.ts";
import { countNoun, report, writeOutput } from "../report.ts";
import {
  type IssueRecord,
  type JobRecord,
  type OutputFile,
  openBuildRecord,
  readBuildRecord,
  type SheetRecord,
} from "./build-record.ts";
import { type OpenJob, type PlannedJob, planBatch, recordKey } from "./plan-batch.ts";

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
  const registers = openRegisters(folder, environment);
  const build = buildId(environment);
  const record = options.force || build === undefined ? new Map() : readBuildRecord(folder, build, environment.io);
  const planned = planBatch(jobs, { folder, registers, record }, options, environment);
  removeStaleTempFiles(folder);
  const recordJob = build === undefined ? () => {} : openBuildRecord(folder, build, environment.io);
  const batch = { folder, registers, renderer: createRenderer(environment), recordJob };
  const count = { written: 0, unchanged: 0, refused: 0, failed: 0 };
  for (const [index, job] of planned.entries()) {
    if (environment.terminal && jobs.length > 1)
      environment.err(`\r\u001b[K${index + 1}/${jobs.length} ${visibleText(job.path)}\r\u001b[K`);
    const made = await makeJob(job, batch, options, environment);
    for (const kind of KINDS) count[kind] += made[kind] ?? 0;
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

const KINDS = ["written", "unchanged", "refused", "failed"] as const;
/** Sheets written, unchanged or failed, and jobs refused. */
type Count = Partial<Record<(typeof KINDS)[number], number>>;

/** Makes the sheets of one job: renders all, enters them in the register, then writes them. */
async function makeJob(job: PlannedJob, batch: Batch, options: MakeOptions, environment: Environment): Promise<Count> {
  const { folder, recordJob } = batch;
  if (job.unchanged) {
    reprintResult(job.unchanged, folder, options, environment);
    return { unchanged: job.unchanged.sheets.length };
  }
  try {
    const result = await renderJob(job.open(), batch, options, environment);
    if (result === undefined) return { refused: 1 };
    if ("standing" in result) return { unchanged: result.standing };
    const { issue, sources } = result;
    // A folder that cannot be had is found before anything is issued.
    makeFolder(folder);
    const names = result.sheets.map(({ template, name }) => ({ sheet: template, file: name }));
    const standing = names.flatMap(({ file }) => checkStanding(issue, file, folder, environment) ?? []);
    const fault = standing[0] ?? enterIssue(issue, names, batch.registers, environment);
    if (fault) report([fault], sources, environment);
    if (fault) return { refused: 1 };
    const sheets: SheetRecord[] = [];
    for (const sheet of result.sheets) {
      const output = await writeSheet(sheet, folder, options, environment);
      if (output) sheets.push(output);
    }
    const failed = result.sheets.length - sheets.length;
    if (failed === 0 && !result.temporary)
      recordJob(recordKey(job.path, options, environment), {
        queries: result.queries(),
        sheets,
        warnings: result.warnings,
        ...(issue.draft ? {} : { issue: omitPlace(issue) }),
      });
    return { written: sheets.length, failed };
  } catch (error) {
    // The register cannot be read or written: no sheet of this job may be.
    reportSystemError(error, environment);
    return { failed: 1 };
  }
}

const omitPlace = ({ register, ticket, revision, mark, figures }: JobIssue): IssueRecord => ({
  register,
  ticket,
  revision,
  mark,
  figures,
});

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

/** What all jobs of a batch share: output folder, registers, renderer, record. */
type Batch = {
  readonly folder: string;
  readonly registers: Registers;
  readonly renderer: ReturnType<typeof createRenderer>;
  readonly recordJob: (key: string, job: JobRecord) => void;
};
type RenderedSheet = { readonly template: string; readonly name: string; readonly pdf: Uint8Array };
type JobResult = Pick<OpenJob, "queries"> & {
  readonly sheets: readonly RenderedSheet[];
  readonly issue: JobIssue;
  readonly sources: Sources;
  readonly warnings: string;
  /** A warning depends on the output folder, so the job must not be recorded as unchanged. */
  readonly temporary: boolean;
};

/** Renders all sheets of one job; undefined when any of them is refused. `standing` counts those left as issued. */
async function renderJob(
  { load, queries, io }: OpenJob,
  { folder, registers, renderer }: Batch,
  options: MakeOptions,
  environment: Environment,
): Promise<JobResult | { readonly standing: number } | undefined> {
  const { drawable, diagnostics, sources } = evaluateProject(load, options);
  let warnings = report(diagnostics, sources, environment);
  if (!drawable) return undefined;
  const issue = issueOf(drawable);
  const templates = templatesOf(drawable.project, options);
  const { fault, frozen } = checkIssue(issue, registers.open(issue.register, issue.shop), environment);
  if (fault) report([fault], sources, environment);
  if (fault?.severity === "error") return undefined;
  if (frozen) {
    const names = templates.map((template) => sheetFileName(drawable.project, drawable.model, template));
    return leaveStanding(names, issue, folder, sources, environment);
  }
  const { renderSheet, resources } = await renderer();
  const sheets: RenderedSheet[] = [];
  let refused = false;
  for (const template of templates) {
    const sheet = await renderSheet(drawable, template, options, { ...resources, io });
    warnings += report(sheet.diagnostics, new Map([...sources, ...sheet.sources]), environment);
    if (!sheet.pdf || hasError(sheet.diagnostics)) refused = true;
    else sheets.push({ template, name: sheet.name, pdf: sheet.pdf });
  }
  return refused ? undefined : { sheets, issue, sources, warnings, queries, temporary: fault !== undefined };
}

/** Leaves sheets that another version of the figures issued; undefined when one of them is missing. */
function leaveStanding(
  names: readonly string[],
  issue: JobIssue,
  folder: string,
  sources: Sources,
  environment: Environment,
): { readonly standing: number } | undefined {
  const stands = (name: string) => {
    const sheet = readSheet(folder, name, environment.io);
    return sheet?.mark === issue.mark && !sheet.draft;
  };
  const missing = names.filter((name) => !stands(name));
  const notes = names.filter(stands).map((name) => frozenNote(issue, name));
  report([...missing.map((name) => frozenError(issue, name)), ...notes], sources, environment);
  if (missing.length > 0) return undefined;
  for (const name of names) environment.out(`${displayPath(environment.cwd, join(folder, name))}\n`);
  return { standing: names.length };
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
    reportSystemError(error, environment);
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

/** Reports an error of the system; rethrows one of ours. */
function reportSystemError(error: unknown, environment: Environment): void {
  if (!isSystemError(error)) throw error;
  environment.err(`error: ${visibleText(describeSystemError(error))}\n`);
}
