import { basename, dirname, relative, resolve, sep } from "node:path";
import { visibleText } from "../diagnostics/visible.ts";
import { createFile } from "../io/create-file.ts";
import { type StarterFacts, starterJob, starterProduct } from "../job/starter/starter.ts";
import { starterFrom } from "../job/starter/starter-from.ts";
import { loadProject } from "../project/load-project.ts";
import type { Environment, ExitCode } from "./environment.ts";
import { UsageError } from "./environment.ts";
import { displayPath } from "./find-jobs.ts";
import { report } from "./report.ts";

/** Kind of starter: a product, or a copy of the head and engine of another job. */
type NewOptions = { readonly product: boolean; readonly from?: string; readonly sizes?: boolean };

/** Writes a commented starter job, dated today and numbered after its file; never overwrites a file. */
export function createJob(file: string, options: NewOptions, environment: Environment): ExitCode {
  const path = resolve(environment.cwd, file);
  if (!/\.ya?ml$/i.test(path)) throw new UsageError(`a job file ends in .yaml: \`${file}\``);
  const schema = relative(dirname(path), resolve(environment.home, "schemas", "job.schema.json"))
    .split(sep)
    .join("/");
  const facts = { number: basename(path).replace(/\.ya?ml$/i, ""), issued: environment.today, schema };
  const text = starterText(facts, options, environment);
  if (text === undefined) return 1;
  const folder = dirname(path);
  const isNew = environment.io.stat(folder) === undefined;
  if (!createFile(path, text)) throw new UsageError(`\`${file}\` is there already: nothing was written`);
  if (isNew) environment.err(`made the folder \`${visibleText(displayPath(environment.cwd, folder))}\`\n`);
  environment.out(`${displayPath(environment.cwd, path)}\n`);
  return 0;
}

/** The starter's text; undefined, with the errors reported, when the job to copy from is refused. */
function starterText(
  facts: StarterFacts,
  { product, from, sizes }: NewOptions,
  environment: Environment,
): string | undefined {
  if (from === undefined) return (product ? starterProduct : starterJob)(facts);
  const { project, diagnostics, sources } = loadProject(from, environment.io, environment.cwd);
  if (project) {
    const { head, heads, engine } = project.job;
    if (!head && !heads && !engine)
      environment.err(`\`${visibleText(from)}\` names no head and no engine: only its units were taken along\n`);
    return starterFrom(facts, project.located.value, { ...project.units }, sizes);
  }
  report(diagnostics, sources, environment);
  return undefined;
}
