import type { YAMLError } from "yaml";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { lineEnd, lineStart } from "./error-places.ts";

/** Larger texts are not parsed again for each attempt [characters]. */
const LONGEST = 64 * 1024;
/** Lines above the first error that may have caused it. */
const LINES_ABOVE = 2;

type Attempt = { readonly line: string; readonly fault: (at: Diagnostic["at"]) => Diagnostic };

/**
 * The one change of one line's start after which the text parses without an error, as its only fault: of a misplaced indent the
 * parser reports every line that follows. Undefined where no such change is found.
 */
export function findLineFault(
  file: string,
  text: string,
  errors: readonly YAMLError[],
  countErrors: (text: string) => number,
): Diagnostic | undefined {
  const first = Math.min(...errors.map(({ pos }) => pos[0]));
  if (errors.length === 0 || text.length > LONGEST) return undefined;
  let start = lineStart(text, first);
  for (let above = 0; above <= LINES_ABOVE; above++) {
    const end = lineEnd(text, start);
    for (const { line, fault } of attemptsAt(text, start, end)) {
      if (countErrors(text.slice(0, start) + line + text.slice(end)) > 0) continue;
      const indent = /^[ \t]*/.exec(text.slice(start, end))![0];
      return fault({
        file,
        start: indent.includes("\t") ? start : start + indent.length,
        end: start + (indent.includes("\t") ? indent.length : text.slice(start, end).trimEnd().length),
      });
    }
    if (start === 0) break;
    start = lineStart(text, start - 1);
  }
  return undefined;
}

/** What the line may have been meant as, the nearest first. */
function attemptsAt(text: string, start: number, end: number): readonly Attempt[] {
  const line = text.slice(start, end);
  const [, lead = "", content = ""] = /^([ \t]*)(.*)$/.exec(line) ?? [];
  if (content === "" || content.startsWith("#")) return [];
  const dash = /^-([A-Za-z_]\w*:.*)$/.exec(content)?.[1];
  if (dash)
    return [
      {
        line: `${lead}- ${dash}`,
        fault: (at) => ({
          severity: "error",
          code: "source/blank",
          message: "a blank is missing after the dash",
          ...(at && { at }),
          hint: `write - ${dash}`,
        }),
      },
    ];
  if (!/^(?:- +)*[^\s:]+:(?:\s|$)/.test(content)) return [];
  const hasTab = lead.includes("\t");
  const isItem = content.startsWith("- ");
  return columnsAbove(text, start, isItem)
    .filter(({ column }) => hasTab || column !== lead.length)
    .toSorted((a, b) => Math.abs(a.column - lead.length) - Math.abs(b.column - lead.length))
    .map(({ column, key }) => ({
      line: " ".repeat(column) + content,
      fault: (at) => ({
        severity: "error",
        code: hasTab ? "source/tab" : "source/indent",
        message: hasTab ? "a tab is used to indent" : "this line is indented unlike the lines it belongs to",
        ...(at && { at }),
        hint: `begin it in the same column as ${isItem ? "the `-`" : `\`${key}\``} above it, with ${column} blanks`,
      }),
    }));
}

/** The columns in which keys, or the dashes before them, begin on the lines above, each with the nearest such key. */
function columnsAbove(
  text: string,
  start: number,
  ofDashes: boolean,
): readonly { readonly column: number; readonly key: string }[] {
  const columns = new Map<number, string>();
  for (let at = start, lines = 0; at > 0 && lines < 40; lines++) {
    at = lineStart(text, at - 1);
    const [, lead, dashes, key] =
      /^( *)((?:- +)*)([A-Za-z_][\w ]*):(?:\s|$)/.exec(text.slice(at, lineEnd(text, at))) ?? [];
    if (lead === undefined || key === undefined) continue;
    if (ofDashes && dashes === "" && lead !== "") continue;
    const column = lead.length + (ofDashes ? 0 : dashes!.length);
    if (!columns.has(column) && !(ofDashes && dashes === "")) columns.set(column, key);
    if (column === 0) break;
  }
  return [...columns].map(([column, key]) => ({ column, key }));
}
