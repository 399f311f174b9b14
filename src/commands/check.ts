import { hasError } from "../diagnostics/build.ts";
import { visibleText } from "../diagnostics/visible.ts";
import { evaluateJob, type Overrides } from "../pipeline/evaluate.ts";
import { createLoadCache } from "../project/load-cache.ts";
import type { Environment, ExitCode } from "./environment.ts";
import { findJobs } from "./find-jobs.ts";
import { countNoun, report } from "./report.ts";

/** Reports every error and warning of the jobs; writes no file. */
export function check(paths: readonly string[], options: Overrides, environment: Environment): ExitCode {
  const jobs = findJobs(paths, environment);
  const cache = createLoadCache();
  let refused = 0;
  let warnings = 0;
  for (const job of jobs) {
    const { diagnostics, sources, shopFile, drawable } = evaluateJob(
      job,
      options,
      environment.io,
      environment.cwd,
      cache,
    );
    const warningCount = diagnostics.filter(({ severity }) => severity === "warning").length;
    const errorCount = diagnostics.length - warningCount;
    warnings += warningCount;
    if (hasError(diagnostics) || !drawable) refused++;
    const found =
      errorCount + warningCount === 0
        ? "nothing wrong"
        : [errorCount && countNoun(errorCount, "error"), warningCount && countNoun(warningCount, "warning")]
            .filter(Boolean)
            .join(", ");
    environment.err(`${visibleText(`${job}: ${found} (${shopFile ? `shop: ${shopFile}` : "no shop.yaml"})`)}\n`);
    report(diagnostics, sources, environment);
  }
  if (jobs.length > 1)
    environment.err(
      `${countNoun(jobs.length, "job")} checked, ${refused} refused, ${countNoun(warnings, "warning")}\n`,
    );
  return refused > 0 ? 1 : 0;
}
