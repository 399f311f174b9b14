import { CST } from "yaml";
import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import type { FlatToken } from "./yaml/tokens.ts";

/** Control characters of terminals and printers; tabs and line ends are text. */
const CONTROL = "\\u0000-\\u0008\\u000b-\\u001f\\u007f-\\u009f";
/** Marks that change the direction of writing: behind one, `gpj.exe` shows as `exe.jpg`. */
const DIRECTION = "\\u061c\\u200e\\u200f\\u202a-\\u202e\\u2066-\\u2069";
/** Characters without a glyph: soft hyphens, joiners, marks within a text, code points that are no characters. */
const HIDDEN =
  "\\u00ad\\u180e\\u200b-\\u200d\\u2028\\u2029\\u2060-\\u2065\\u206a-\\u206f\\ufeff\\ufff9-\\ufffb\\ufffe\\uffff\\ud800-\\udfff\\u{e0000}-\\u{e007f}";

const IN_TEXT = new RegExp(`[\\u0080-\\u009f${DIRECTION}${HIDDEN}]`, "gu");
const IN_VALUE = new RegExp(`[${CONTROL}${DIRECTION}${HIDDEN}]`, "u");
const TURNS = new RegExp(`[${DIRECTION}]`, "u");
/** Upper limit of reported errors. */
const MOST_FAULTS = 50;

const codeOf = (character: string) =>
  `U+${(character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, "0")}`;

/** An error for each character that is invisible on a sheet or changes the order in which its text is read. */
export function invisibleCharacters(file: string, text: string): readonly Diagnostic[] {
  const faults: Diagnostic[] = [];
  for (const { 0: character, index } of text.matchAll(IN_TEXT)) {
    const byteOrderMark = index === 0 && character === "\ufeff";
    if (byteOrderMark) continue;
    if (faults.length === MOST_FAULTS) break;
    faults.push({
      severity: "error",
      code: "source/unseen-character",
      message: `a character that cannot be seen stands here (${codeOf(character)})`,
      at: { file, start: index, end: index + character.length },
      ...(TURNS.test(character) && { note: "it turns the direction in which the rest is read" }),
      hint: "delete it and type the text around it again",
    });
  }
  return faults;
}

/** The same characters written as escapes in double quotes, such as `"\u202e"`. */
export function escapedInvisibleCharacters(file: string, tokens: readonly FlatToken[]): readonly Diagnostic[] {
  const faults: Diagnostic[] = [];
  for (const { type, offset, source = "" } of tokens) {
    if (type !== "double-quoted-scalar" || !source.includes("\\")) continue;
    const { value } = CST.resolveAsScalar({ type, offset, indent: 0, source }, true, () => {});
    const found = IN_VALUE.exec(value)?.[0];
    if (found === undefined || source.includes(found)) continue;
    if (faults.length === MOST_FAULTS) break;
    faults.push({
      severity: "error",
      code: "source/unseen-character",
      message: `a character that cannot be seen is spelled out here (${codeOf(found)})`,
      at: { file, start: offset, end: offset + source.length },
      hint: "delete it; for a backslash as it is, write the text in single quotes",
    });
  }
  return faults;
}
