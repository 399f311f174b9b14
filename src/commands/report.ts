import type { Diagnostic, Sources } from "../diagnostics/diagnostic.ts";
import { render } from "../diagnostics/render.ts";
import type { Environment } from "./environment.ts";

/** Writes problems to the messages, if there are any, and says what it wrote, without colour. */
export function report(diagnostics: readonly Diagnostic[], sources: Sources, world: Environment): string {
  if (diagnostics.length === 0) return "";
  world.err(`${render(diagnostics, sources, { colour: world.colour })}\n\n`);
  return `${render(diagnostics, sources, { colour: false })}\n\n`;
}

/** "1 sheet", "4 sheets". */
export const counted = (count: number, one: string, many = `${one}s`): string => `${count} ${count === 1 ? one : many}`;
