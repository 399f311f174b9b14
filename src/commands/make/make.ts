import { join } from "node:path";
import { hasError } from "../../diagnostics/build.ts";
import { visibleText } from "../../diagnostics/visible.ts";
import { evaluateProject, type Overrides } from "../../pipeline/evaluate.ts";
import { sheetFileName, templatesOf } from "../../pipeline/file-name.ts";
import type { Environment, ExitCode } from "../environment.ts";
import { buildId } from "../environment.ts";
import { displayPath, findJobs } from "../find-jobs.ts";
import { issueOf, type JobIssue, type Output } from "../issued/check-issue.ts";
import { checkFiles, type IssueRequest, issueFiles } from "../issued/issue-files.ts";
import { openRegisters } from "../issued/register.ts";
import { type JsonResult, openJsonResult } from "../json-result.ts";
import { createRenderer } from "../renderer.ts";
import { countNoun, nameRefused, openFolder, report } from "../report.ts";
import {
  type IssueRecord,
  type JobRecord,
  openBuildRecord,
  readBuildRecord,
  type SheetRecord,
} from "./build-record.ts";
import { type OpenJob, type PlannedJob, planBatch, recordKey } from "./plan-batch.ts";
import { reportSystemError, type SheetToWrite, writeSheet } from "./write-sheet.ts";

type MakeOptions = Overrides & {
  readonly outFolder: string;
  readonly png: boolean;
  readonly force?: boolean;
  readonly json?: boolean;
};

/**
 * Makes the sheets of the jobs, except those that exist and would come out unchanged. A refused job neither stops the batch nor
 * touches its existing PDF.
 */
export async function make(paths: readonly string[], options: MakeOptions, outer: Environment): Promise<ExitCode> {
  const json = options.json ? openJsonResult(outer) : undefined;
  const environment = json?.environment ?? outer;
  const jobs = findJobs(paths, environment);
  const folder = openFolder(options.outFolder, environment);
  const registers = openRegisters(environment);
  const build = buildId(environment);
  // What an unchanged job says is recorded as text only.
  const record =
    options.force || json || build === undefined ? new Map() : readBuildRecord(folder, build, environment.io);
  const planned = planBatch(jobs, { folder, registers, record }, options, environment);
  const recordJob = build === undefined ? () => {} : openBuildRecord(folder, build, environment.io);
  const batch = { folder, registers, renderer: createRenderer(environment), recordJob, ...(json && { json }) };
  const count = { written: 0, unchanged: 0, refused: 0, failed: 0 };
  const refused: string[] = [];
  for (const [index, job] of planned.entries()) {
    if (environment.terminal && jobs.length > 1)
      environment.err(`\r\u001b[K${index + 1}/${jobs.length} ${visibleText(job.path)}\r\u001b[K`);
    const made = await makeJob(job, batch, options, environment);
    for (const kind of KINDS) count[kind] += made[kind] ?? 0;
    if (made.refused) refused.push(job.path);
  }
  const sum = [
    `${countNoun(count.written, "sheet")} written`,
    ...(count.unchanged > 0 ? [`${count.unchanged} unchanged`] : []),
    ...(count.refused > 0 ? [`${countNoun(count.refused, "job")} refused`] : []),
    ...(count.failed > 0 ? [`${countNoun(count.failed, "sheet")} could not be written`] : []),
  ];
  if (jobs.length > 1) nameRefused(refused, environment);
  if (jobs.length > 1 || sum.length > 1) environment.err(`${sum.join(", ")}\n`);
  json?.print();
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
    if ("standing" in result) {
      listSheets(
        job.path,
        result,
        result.request.files.map(({ file }) => file),
        { ...batch, cwd: environment.cwd },
      );
      return { unchanged: result.standing };
    }
    if (!issueFiles(result.request, environment)) return { refused: 1 };
    const sheets: SheetRecord[] = [];
    for (const sheet of result.sheets) {
      const output = await writeSheet(sheet, folder, options, environment);
      if (output) sheets.push(output);
    }
    listSheets(
      job.path,
      result,
      sheets.map(({ name }) => name),
      { ...batch, cwd: environment.cwd },
    );
    const failed = result.sheets.length - sheets.length;
    if (failed === 0 && result.recordable)
      recordJob(recordKey(job.path, options, environment), {
        queries: result.queries(),
        sheets,
        warnings: result.warnings,
        ...(result.issue.draft ? {} : { issue: omitPlace(result.issue) }),
      });
    return { written: sheets.length, failed };
  } catch (error) {
    // The register cannot be read or written: no sheet of this job may be.
    reportSystemError(error, environment);
    return { failed: 1 };
  }
}

/** Lists the sheets of a job that stand, for `--json`. */
function listSheets(
  job: string,
  { issue, request }: Pick<RenderedJob, "issue" | "request">,
  names: readonly string[],
  { json, folder, cwd }: Pick<Batch, "json" | "folder"> & { readonly cwd: string },
): void {
  for (const { sheet, file } of request.files)
    if (names.includes(file))
      json?.add({ job, template: sheet, file: displayPath(cwd, join(folder, file)), mark: issue.mark });
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

/** What all jobs of a batch share. */
type Batch = Output & {
  readonly renderer: ReturnType<typeof createRenderer>;
  readonly recordJob: (key: string, job: JobRecord) => void;
  readonly json?: JsonResult;
};
type RenderedJob = Pick<OpenJob, "queries"> & {
  readonly sheets: readonly SheetToWrite[];
  readonly issue: JobIssue;
  readonly request: IssueRequest;
  readonly warnings: string;
  /** False where a warning depends on the register, so that the next run has to look again. */
  readonly recordable: boolean;
};

/** Renders all sheets of one job; undefined when any of them is refused. `standing` counts those left as issued. */
async function renderJob(
  { load, queries, io }: OpenJob,
  batch: Batch,
  options: MakeOptions,
  environment: Environment,
): Promise<RenderedJob | ({ readonly standing: number } & Pick<RenderedJob, "issue" | "request">) | undefined> {
  const { drawable, diagnostics, sources } = evaluateProject(load, options);
  let warnings = report(diagnostics, sources, environment);
  if (!drawable) return undefined;
  const issue = issueOf(drawable);
  const templates = templatesOf(drawable.project, options);
  const files = templates.map((template) => ({
    sheet: template,
    file: sheetFileName(drawable.project, drawable.model, template),
  }));
  const request = { issues: [issue], files, output: batch, sources };
  const { verdict, warned } = checkFiles(request, environment);
  if (verdict !== "write") return verdict === "refused" ? undefined : { standing: files.length, issue, request };
  const { renderSheet, resources } = await batch.renderer();
  const sheets: SheetToWrite[] = [];
  let refused = false;
  for (const template of templates) {
    const sheet = await renderSheet(drawable, template, options, { ...resources, io });
    warnings += report(sheet.diagnostics, new Map([...sources, ...sheet.sources]), environment);
    if (!sheet.pdf || hasError(sheet.diagnostics)) refused = true;
    else sheets.push({ name: sheet.name, pdf: sheet.pdf });
  }
  return refused ? undefined : { sheets, issue, request, warnings, queries, recordable: !warned };
}
