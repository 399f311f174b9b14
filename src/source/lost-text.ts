import type { CST } from "yaml";
import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import { everyToken } from "./tokens.ts";

/**
 * A `#` that looks like part of the text, but starts a comment: `cracked at #3 cylinder`, `accent: #1F4E5F`. A comment as
 * people write them has two blanks before the `#`, or one after it; those pass.
 */
export function lostText(file: string, text: string, tokens: readonly CST.Token[]): readonly Diagnostic[] {
  const warnings: Diagnostic[] = [];
  for (const { token } of everyToken(tokens)) {
    if (token.type !== "comment" || !/^#[^\s#!]/.test(token.source ?? "")) continue;
    const start = text.lastIndexOf("\n", token.offset - 1) + 1;
    const before = text.slice(start, token.offset);
    const at = { file, start: token.offset, end: token.offset + (token.source ?? "").trimEnd().length };
    const lost = (token.source ?? "").trimEnd();
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
