import type { Diagnostic } from "../../diagnostics/diagnostic.ts";

/** A text with its misindented tables blanked out, and the errors about them. */
type TextWithoutTables = { readonly text: string; readonly faults: readonly Diagnostic[] };

type Line = { readonly start: number; readonly text: string; readonly indent: number };

const OPENER = /^(\s*(?:- +)*)(flow|profile|sections) *:[ \t]*([|>][-+\d]*)?[ \t]*(?:#.*)?$/;
const HEAD = /^\s*(?:lift|at|degrees?|angle)\b[^:]*$/i;
const ROW = /^\s*[~+-]?[\d.]/;
const COMMENT = /^\s*#/;
const KEY = /^\s*(- +)*[A-Za-z_][\w ]*:(\s|$)/;

function splitLines(text: string): readonly Line[] {
  let start = 0;
  return text.split("\n").map((raw) => {
    const line = raw.replace(/\r$/, "");
    const found = { start, text: line, indent: /^ */.exec(line)![0].length };
    start += raw.length + 1;
    return found;
  });
}

/** The lines of a table below its key: its head, rows, comments and blank lines, at any indent. */
function tableBelow(lines: readonly Line[], opener: number): readonly Line[] {
  let first = opener + 1;
  while (first < lines.length && (lines[first]!.text.trim() === "" || COMMENT.test(lines[first]!.text))) first++;
  if (first >= lines.length || !HEAD.test(lines[first]!.text)) return [];
  let end = first + 1;
  for (let at = end; at < lines.length; at++) {
    const { text } = lines[at]!;
    if (text.trim() === "" || COMMENT.test(text)) continue;
    if (KEY.test(text) || !ROW.test(text)) break;
    end = at + 1;
  }
  return lines.slice(first, end);
}

/** The error in the indent or mark of a table, if there is one. */
function indentError(
  file: string,
  key: string,
  keyIndent: number,
  marked: boolean,
  table: readonly Line[],
): Diagnostic | undefined {
  const errorAt = (line: Line, message: string, hint: string): Diagnostic => {
    const indent = /^\s*/.exec(line.text)![0].length;
    return {
      severity: "error",
      code: marked ? "source/table-indent" : "source/table-mark",
      message,
      at: { file, start: line.start + indent, end: line.start + line.text.trimEnd().length },
      hint,
    };
  };
  const head = table[0]!;
  const filled = table.filter((line) => line.text.trim() !== "");
  if (!marked)
    return errorAt(
      head,
      `a readings table needs a \`|\` after \`${key}:\``,
      `write ${key}: | and indent the table under it`,
    );
  const tab = filled.find((line) => /^ *\t/.test(line.text));
  if (tab)
    return errorAt(tab, "the readings table is indented with a tab", `indent the table under ${key}: with blanks`);
  const left = filled.find((line) => line.indent <= keyIndent);
  if (left && COMMENT.test(left.text)) {
    return errorAt(
      left,
      "a comment to the left of the readings table ends the table",
      "indent the comment as far as the rows",
    );
  }
  if (left)
    return errorAt(left, `the readings table is not indented under \`${key}:\``, `indent the table under ${key}:`);
  const shallow = filled.find((line) => line.indent < head.indent);
  if (shallow) {
    const what = COMMENT.test(shallow.text) ? "this comment" : "this row";
    return errorAt(
      shallow,
      `${what} is indented less than the head of its table`,
      `indent the table under ${key}: alike, its head as far as its rows`,
    );
  }
  return undefined;
}

/**
 * Reports misindented readings tables, about which YAML's own errors mislead, and replaces them by blanks, which keeps all
 * offsets, so that the rest of the file can be parsed.
 */
export function removeMisindentedTables(file: string, text: string): TextWithoutTables {
  const lines = splitLines(text);
  const faults: Diagnostic[] = [];
  let left = "";
  let kept = 0;
  lines.forEach((line, at) => {
    const opener = OPENER.exec(line.text);
    const key = opener?.[2];
    if (!opener || !key || line.start < kept) return;
    const table = tableBelow(lines, at);
    if (table.length === 0) return;
    const fault = indentError(file, key, opener[1]!.length, opener[3]?.startsWith("|") ?? false, table);
    if (!fault) return;
    faults.push(fault);
    const start = table[0]!.start;
    const end = table.at(-1)!.start + table.at(-1)!.text.length;
    left += text.slice(kept, start) + text.slice(start, end).replace(/[^\r\n]/g, " ");
    kept = end;
  });
  return { text: left + text.slice(kept), faults };
}
