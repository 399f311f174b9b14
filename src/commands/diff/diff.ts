import { evaluateJob, type Overrides } from "../../pipeline/evaluate.ts";
import type { Environment, ExitCode } from "../environment.ts";
import { report } from "../report.ts";
import { diffJobs } from "./diff-jobs.ts";
import { diffText } from "./diff-text.ts";

/** Says what changed between two jobs, or two revisions of one. */
export function diff(a: string, b: string, form: "text" | "json", asked: Overrides, world: Environment): ExitCode {
  const [first, second] = [a, b].map((job) => evaluateJob(job, { ...asked, pictures: false }, world.io, world.cwd));
  for (const { drawable, diagnostics, sources } of [first!, second!])
    if (!drawable) report(diagnostics, sources, world);
  if (!first?.drawable || !second?.drawable) return 1;
  const found = diffJobs(first.drawable, second.drawable);
  world.out(form === "json" ? `${JSON.stringify(found, null, 2)}\n` : diffText(found, second.drawable.model.units));
  return 0;
}
