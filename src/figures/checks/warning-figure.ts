import type { Diagnostic, Sources } from "../../diagnostics/diagnostic.ts";
import { linesOf, placeOf } from "../../diagnostics/line-counter.ts";
import type { WarningFigure } from "../figures.ts";

/**
 * A warning as the figures carry it: its text with what to do, and its place where the text it points into is known.
 *
 *     text = message, colon, hint
 *
 * @param warning  the warning
 * @param sources  the texts that warnings point into, by file name
 * @returns        code, text and place; line and column, from 1, only with the text at hand
 * @source         the JSON contract of the figures
 * @example        warningFigure({ severity: "warning", code: "a/b", message: "odd", hint: "look" }, new Map()).text // "odd: look"
 */
export function warningFigure({ code, message, hint, at }: Diagnostic, sources: Sources): WarningFigure {
  const text = hint === undefined ? message : `${message}: ${hint}`;
  const source = at === undefined ? undefined : sources.get(at.file);
  if (at === undefined || source === undefined) return { code, text, ...(at === undefined ? {} : { file: at.file }) };
  const { line, column } = placeOf(linesOf(source), at.start);
  return { code, text, file: at.file, line, column };
}
