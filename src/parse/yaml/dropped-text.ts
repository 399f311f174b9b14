import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { lineStart } from "./error-places.ts";
import type { FlatToken } from "./tokens.ts";

/**
 * Warns of a `#` that starts a comment but looks like part of the text: `cracked at #3 cylinder`, `accent: #1F4E5F`. A `#`
 * with two blanks before it or one after it is taken for a comment.
 */
export function droppedText(file: string, text: string, tokens: readonly FlatToken[]): readonly Diagnostic[] {
  const warnings: Diagnostic[] = [];
  for (const { type, offset, source = "" } of tokens) {
    if (type !== "comment" || !/^#[^\s#!]/.test(source)) continue;
    const before = text.slice(lineStart(text, offset), offset);
    const lost = source.trimEnd();
    const at = { file, start: offset, end: offset + lost.length };
    if (/[:-][ \t]+$/.test(before)) {
      warnings.push({
        severity: "warning",
        code: "source/lost-value",
        message: "everything after `#` is a comment, so the value is lost",
        at,
        hint: `put it in quotes: "${firstWord(lost)}"`,
      });
    } else if (/[^\s:[{,|>-] $/.test(before)) {
      warnings.push({
        severity: "warning",
        code: "source/lost-text",
        message: "everything after `#` is a comment, so the rest of the line is lost",
        at,
        hint: "put the whole text in quotes; if it is a comment, leave a blank after the #",
      });
    }
  }
  return warnings;
}

const firstWord = (text: string) => text.split(/\s/)[0] ?? text;
