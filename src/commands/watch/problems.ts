import type { Diagnostic, Sources } from "../../diagnostics/diagnostic.ts";
import { excerpt } from "../../diagnostics/excerpt.ts";
import { createLineLookup, type Lines, placeOf } from "../../diagnostics/line-counter.ts";
import { visibleText } from "../../diagnostics/visible.ts";
import type { Problem } from "./messages.ts";
import { quickFix } from "./quick-fix.ts";

/** Diagnostics as problems of the page, in the order and with the positions of `check`. */
export function problemsOf(diagnostics: readonly Diagnostic[], sources: Sources, job: string): readonly Problem[] {
  const linesFor = createLineLookup(sources);
  return diagnostics.map((one) => problemOf(one, one.at && linesFor(one.at.file), job));
}

function problemOf(
  { severity, code, message, note, hint, at }: Diagnostic,
  lines: Lines | undefined,
  job: string,
): Problem {
  const problem = {
    severity,
    code,
    message: visibleText(message),
    ...(note === undefined ? {} : { note: visibleLines(note) }),
    ...(hint === undefined ? {} : { hint: visibleLines(hint) }),
  };
  if (!at || !lines) return problem;
  const start = placeOf(lines, at.start);
  const end = placeOf(lines, at.end);
  const text = lines.text.slice(start.lineStart, start.lineEnd);
  const fix = at.file === job ? quickFix(hint, lines.text.slice(at.start, at.end)) : undefined;
  return {
    ...problem,
    place: { file: visibleText(at.file), line: start.line, column: start.column },
    excerpt: excerpt(text, at.start - start.lineStart, at.end - start.lineStart),
    ...(at.file === job
      ? {
          span: {
            from: { line: start.line, ch: columnInLine(at.start, start) },
            to: { line: end.line, ch: columnInLine(at.end, end) },
          },
          ...(fix ? { fix } : {}),
        }
      : {}),
  };
}

const columnInLine = (offset: number, { lineStart, lineEnd }: { lineStart: number; lineEnd: number }) =>
  Math.max(0, Math.min(offset, lineEnd) - lineStart);

const visibleLines = (text: string) => text.split(/\r?\n/).map(visibleText).join("\n");
