import type { Diagnostic, Sources } from "../diagnostics/diagnostic.ts";
import { render } from "../diagnostics/render.ts";
import { writeAtomically } from "../io/write-atomically.ts";
import type { Environment } from "./environment.ts";
import { displayPath } from "./find-jobs.ts";

/** Writes diagnostics as messages and returns the same text without colour. */
export function report(diagnostics: readonly Diagnostic[], sources: Sources, environment: Environment): string {
  if (diagnostics.length === 0) return "";
  environment.err(`${render(diagnostics, sources, { colour: environment.colour })}\n\n`);
  return `${render(diagnostics, sources, { colour: false })}\n\n`;
}

/** "1 sheet", "4 sheets". */
export const countNoun = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;

/** Writes a file and prints its path. */
export function writeOutput(path: string, contents: string | Uint8Array, environment: Environment): void {
  writeAtomically(path, contents);
  environment.out(`${displayPath(environment.cwd, path)}\n`);
}
