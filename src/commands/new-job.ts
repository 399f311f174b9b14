import { basename, dirname, relative, resolve, sep } from "node:path";
import { visible } from "../diagnostics/visible.ts";
import { createFile } from "../io/create-file.ts";
import { type StarterFacts, starterJob, starterProduct } from "../job/starter/starter.ts";
import { starterFrom } from "../job/starter/starter-from.ts";
import { loadProject } from "../project/load-project.ts";
import type { Environment, ExitCode } from "./environment.ts";
import { shortest } from "./find-jobs.ts";
import { report } from "./report.ts";
import { UsageError } from "./usage-error.ts";

/** What the new job is to be: a product's, or another head of a kind that a job already describes. */
export type NewOptions = { readonly product: boolean; readonly from?: string };

/** Writes a commented starter job, dated today and numbered after its file; never over a file that is there. */
export function newJob(file: string, options: NewOptions, world: Environment): ExitCode {
  const path = resolve(world.cwd, file);
  if (!/\.ya?ml$/i.test(path)) throw new UsageError(`a job file ends in .yaml: \`${file}\``);
  const schema = relative(dirname(path), resolve(world.home, "schemas", "job.schema.json"))
    .split(sep)
    .join("/");
  const facts = { number: basename(path).replace(/\.ya?ml$/i, ""), issued: world.today, schema };
  const text = textOf(facts, options, world);
  if (text === undefined) return 1;
  if (!createFile(path, text)) throw new UsageError(`\`${file}\` is there already: nothing was written`);
  world.out(`${shortest(world.cwd, path)}\n`);
  return 0;
}

/** The starter's text; undefined when the job it should be made from is refused, and why is said. */
function textOf(facts: StarterFacts, { product, from }: NewOptions, world: Environment): string | undefined {
  if (from === undefined) return (product ? starterProduct : starterJob)(facts);
  const { project, diagnostics, sources } = loadProject(from, world.io, world.cwd);
  if (project) {
    const { head, heads, engine } = project.job;
    if (!head && !heads && !engine)
      world.err(`\`${visible(from)}\` names no head and no engine: only its units were taken along\n`);
    return starterFrom(facts, project.located.value, { ...project.units });
  }
  report(diagnostics, sources, world);
  return undefined;
}
