import { hasError } from "../diagnostics/build.ts";
import { visible } from "../diagnostics/visible.ts";
import { evaluateJob, type Overrides } from "../pipeline/evaluate.ts";
import { createLoadCache } from "../project/load-cache.ts";
import type { Environment, ExitCode } from "./environment.ts";
import { findJobs } from "./find-jobs.ts";
import { counted, report } from "./report.ts";

/** Says all that is wrong with the jobs, and writes nothing. */
export function check(asked: readonly string[], options: Overrides, world: Environment): ExitCode {
  const jobs = findJobs(asked, world);
  const cache = createLoadCache();
  let bad = 0;
  let warnings = 0;
  for (const job of jobs) {
    const { diagnostics, sources, shopFile, drawable } = evaluateJob(job, options, world.io, world.cwd, cache);
    const doubts = diagnostics.filter(({ severity }) => severity === "warning").length;
    const errors = diagnostics.length - doubts;
    warnings += doubts;
    if (hasError(diagnostics) || !drawable) bad++;
    const found =
      errors + doubts === 0
        ? "nothing wrong"
        : [errors && counted(errors, "error"), doubts && counted(doubts, "warning")].filter(Boolean).join(", ");
    world.err(`${visible(`${job}: ${found} (${shopFile ? `shop: ${shopFile}` : "no shop.yaml"})`)}\n`);
    report(diagnostics, sources, world);
  }
  if (jobs.length > 1)
    world.err(`${counted(jobs.length, "job")} checked, ${bad} refused, ${counted(warnings, "warning")}\n`);
  return bad > 0 ? 1 : 0;
}
