import type { Problem } from "./messages.ts";

/**
 * What to write over the text of a problem, where its hint is "did you mean …?". Quotes, the mark of a reading and the unit of a column
 * stay where the proposal does not name them.
 */
export function quickFix(hint: string | undefined, before: string): Problem["fix"] {
  const [, quoted, plain] = /^did you mean (?:`([^`]+)`|(.+?))\?(?: |$)/.exec(hint ?? "") ?? [];
  const proposed = quoted ?? plain;
  if (proposed === undefined || before === "" || /[\r\n]/.test(before)) return undefined;
  const [, quote = "", inner = "", mark = ""] = /^(["']?)(.*?)([?!]?)\1$/s.exec(before) ?? [];
  const unit = /^[a-z_]+([/([].*)$/is.exec(inner)?.[1] ?? "";
  const struck = inner.startsWith("~") ? "~" : "";
  const after = `${quote}${struck}${proposed}${/[/([]/.test(proposed) ? "" : unit}${mark}${quote}`;
  return after === before ? undefined : { before, after };
}
