import { resolve } from "node:path";
import type { Diagnostic, Sources } from "../diagnostics/diagnostic.ts";
import { render } from "../diagnostics/render.ts";
import { visibleText } from "../diagnostics/visible.ts";
import { describeSystemError } from "../io/system-errors.ts";
import { removeStaleTempFiles } from "../io/temporary-file.ts";
import { writeAtomically } from "../io/write-atomically.ts";
import type { Environment } from "./environment.ts";
import { displayPath } from "./find-jobs.ts";

/** Writes diagnostics as messages and returns the same text without colour. */
export function report(diagnostics: readonly Diagnostic[], sources: Sources, environment: Environment): string {
  if (diagnostics.length === 0) return "";
  environment.collect?.(diagnostics, sources);
  environment.err(`${render(diagnostics, sources, { colour: environment.colour })}\n\n`);
  return `${render(diagnostics, sources, { colour: false })}\n\n`;
}

/** The message of a system error, with control characters in names escaped. */
export const formatSystemError = (error: NodeJS.ErrnoException): string =>
  `error: ${visibleText(describeSystemError(error))}\n`;

/** "1 sheet", "4 sheets". */
export const countNoun = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;

/** The refused jobs of a batch, a line each, so that nobody has to look for them. */
export function nameRefused(refused: readonly string[], environment: Environment): void {
  for (const job of refused) environment.err(`  refused: ${visibleText(job)}\n`);
}

/** The folder that a command writes into, without the temporary files of killed runs. */
export function openFolder(typed: string, { cwd }: Pick<Environment, "cwd">): string {
  const folder = resolve(cwd, typed);
  removeStaleTempFiles(folder);
  return folder;
}

/** Writes a file and prints its path. */
export function writeOutput(path: string, contents: string | Uint8Array, environment: Environment): void {
  writeAtomically(path, contents);
  environment.out(`${displayPath(environment.cwd, path)}\n`);
}
