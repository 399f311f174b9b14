import type { Diagnostic, Sources } from "../../diagnostics/diagnostic.ts";
import { excerpt } from "../../diagnostics/excerpt.ts";
import { type Lines, linesOf, placeOf } from "../../diagnostics/line-counter.ts";
import { visible } from "../../diagnostics/visible.ts";
import type { Problem } from "./messages.ts";

/** Problems as the page shows them, in the order and with the places in which `check` says them. */
export function problemsOf(diagnostics: readonly Diagnostic[], sources: Sources, job: string): readonly Problem[] {
  const cut = new Map<string, Lines>();
  const linesFor = (file: string): Lines | undefined => {
    const text = sources.get(file);
    if (text !== undefined && !cut.has(file)) cut.set(file, linesOf(text));
    return cut.get(file);
  };
  return diagnostics.map((one) => problemOf(one, one.at && linesFor(one.at.file), job));
}

function problemOf(
  { severity, code, message, note, hint, at }: Diagnostic,
  lines: Lines | undefined,
  job: string,
): Problem {
  const said = {
    severity,
    code,
    message: visible(message),
    ...(note === undefined ? {} : { note: inLines(note) }),
    ...(hint === undefined ? {} : { hint: inLines(hint) }),
  };
  if (!at || !lines) return said;
  const start = placeOf(lines, at.start);
  const end = placeOf(lines, at.end);
  const text = lines.text.slice(start.lineStart, start.lineEnd);
  return {
    ...said,
    place: { file: visible(at.file), line: start.line, column: start.column },
    excerpt: excerpt(text, at.start - start.lineStart, at.end - start.lineStart),
    ...(at.file === job
      ? {
          span: {
            from: { line: start.line, ch: within(at.start, start) },
            to: { line: end.line, ch: within(at.end, end) },
          },
        }
      : {}),
  };
}

const within = (offset: number, { lineStart, lineEnd }: { lineStart: number; lineEnd: number }) =>
  Math.max(0, Math.min(offset, lineEnd) - lineStart);

const inLines = (text: string) => text.split(/\r?\n/).map(visible).join("\n");
