import { readingsCsv } from "../embed/readings-csv.ts";
import { evaluateJob, type Overrides } from "../pipeline/evaluate.ts";
import type { Environment, ExitCode } from "./environment.ts";
import { figuresText } from "./figures-text.ts";
import { report } from "./report.ts";

/** Prints a job's figures: tables to read, the JSON object, or its readings as CSV. */
export function showFigures(
  job: string,
  form: "text" | "json" | "csv",
  asked: Overrides,
  world: Environment,
): ExitCode {
  const { drawable, diagnostics, sources } = evaluateJob(job, asked, world.io, world.cwd);
  report(diagnostics, sources, world);
  if (!drawable) return 1;
  const { figures, model } = drawable;
  world.out(
    form === "json"
      ? `${JSON.stringify(figures, null, 2)}\n`
      : form === "csv"
        ? readingsCsv(figures, model.units)
        : figuresText(figures, model.units),
  );
  return 0;
}
