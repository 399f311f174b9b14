import { hasError } from "../diagnostics/build.ts";
import type { Diagnostic, Sources } from "../diagnostics/diagnostic.ts";
import { visibleText } from "../diagnostics/visible.ts";
import { type Evaluation, evaluateJob, type Overrides } from "../pipeline/evaluate.ts";
import { templatesOf } from "../pipeline/file-name.ts";
import { createLoadCache } from "../project/load-cache.ts";
import type { Environment, ExitCode } from "./environment.ts";
import { findJobs } from "./find-jobs.ts";
import { checkIssue, issueOf } from "./issued/check-issue.ts";
import { openRegisters, type Registers } from "./issued/register.ts";
import { openJsonResult } from "./json-result.ts";
import { readPasted } from "./pasted-job.ts";
import { createRenderer } from "./renderer.ts";
import { countNoun, nameRefused, report } from "./report.ts";

type CheckOptions = Overrides & { readonly json?: boolean };

/** Reports every error and warning of the jobs, those of their sheets included; writes no file. `-` is what is pasted. */
export async function check(
  paths: readonly string[],
  { json = false, ...options }: CheckOptions,
  outer: Environment,
): Promise<ExitCode> {
  const result = json ? openJsonResult(outer) : undefined;
  const world = result?.environment ?? outer;
  const pasted = paths.includes("-") ? await readPasted(world) : undefined;
  const environment = pasted ? { ...world, io: pasted.io } : world;
  const jobs = findJobs(pasted ? paths.map((path) => (path === "-" ? pasted.path : path)) : paths, environment);
  const cache = createLoadCache();
  const registers = openRegisters(environment);
  const renderer = createRenderer(environment);
  const refused: string[] = [];
  let warnings = 0;
  for (const job of jobs) {
    const evaluation = evaluateJob(job, options, environment.io, environment.cwd, cache);
    const { diagnostics, sources } = await checkSheets(evaluation, registers, renderer, options, environment);
    const warningCount = diagnostics.filter(({ severity }) => severity === "warning").length;
    const errorCount = diagnostics.length - warningCount;
    warnings += warningCount;
    if (hasError(diagnostics)) refused.push(job);
    const found =
      errorCount + warningCount === 0
        ? "nothing wrong"
        : [errorCount && countNoun(errorCount, "error"), warningCount && countNoun(warningCount, "warning")]
            .filter(Boolean)
            .join(", ");
    const shop = evaluation.shopFile ? `shop: ${evaluation.shopFile}` : "no shop.yaml";
    environment.err(`${visibleText(`${job}: ${found} (${shop})`)}\n`);
    report(diagnostics, sources, environment);
  }
  if (jobs.length > 1) {
    nameRefused(refused, environment);
    environment.err(
      `${countNoun(jobs.length, "job")} checked, ${refused.length} refused, ${countNoun(warnings, "warning")}\n`,
    );
  }
  result?.print();
  return refused.length > 0 ? 1 : 0;
}

/** The diagnostics of a job, of what was issued of it, and of each of its sheets, laid out but not painted; what concerns all sheets is reported once. */
async function checkSheets(
  { drawable, diagnostics, sources }: Evaluation,
  registers: Registers,
  renderer: ReturnType<typeof createRenderer>,
  options: Overrides,
  environment: Environment,
): Promise<{ readonly diagnostics: readonly Diagnostic[]; readonly sources: Sources }> {
  if (!drawable) return { diagnostics, sources };
  const issue = issueOf(drawable);
  const { fault } = checkIssue(issue, registers.read(issue.register) ?? new Map(), environment);
  const known = fault ? [...diagnostics, fault] : diagnostics;
  if (fault?.severity === "error") return { diagnostics: known, sources };
  const { checkSheet, resources } = await renderer();
  const found = new Map<string, Diagnostic>();
  const texts = new Map(sources);
  for (const template of templatesOf(drawable.project, options)) {
    const sheet = await checkSheet(drawable, template, options, resources);
    for (const one of sheet.diagnostics) found.set(JSON.stringify(one), one);
    for (const [file, text] of sheet.sources) texts.set(file, text);
  }
  return { diagnostics: [...known, ...found.values()], sources: texts };
}
