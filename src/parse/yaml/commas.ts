import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { decimalCommaWords } from "../../units/parse-number.ts";
import type { Place, Range } from "./places.ts";
import { quoted } from "./quoted.ts";

type Context = { readonly file: string; readonly text: string; readonly faults: Diagnostic[] };

const WHOLE = /^[+-]?\d{1,7}$/;
const PART = /^\d{1,7}(?:$|[^\d.:].*$)/;

/** Whether words behind a comma in brackets are the decimals of the number before it: `{ throat: 1,27 }`. */
export const isDecimalComma = ({ style, value }: Place, words: string): boolean =>
  style === "PLAIN" && typeof value === "string" && WHOLE.test(value) && PART.test(words);

/** Reports a decimal comma and returns the number with its point. Several on one line are reported once. */
export function joinDecimal(before: Place, { end }: Range, words: string, { file, text, faults }: Context): Place {
  const code = "units/decimal-comma";
  const line = text.lastIndexOf("\n", before.start);
  const value = `${before.value}.${words}`;
  const last = faults.findLastIndex((one) => one.code === code);
  const reported = faults[last];
  if (reported?.at && text.lastIndexOf("\n", reported.at.start) === line)
    faults[last] = { ...reported, note: "and more of them on this line" };
  else
    faults.push({
      severity: "error",
      code,
      ...decimalCommaWords(/^\S*/.exec(`${before.value},${words}`)![0], value),
      at: { file, start: before.start, end },
    });
  return { ...before, end, value };
}

/**
 * Joins the numbers of a list that a decimal comma parts. `[0,2, 0,4]` is one: a blank follows some commas and not others, or a
 * number is 0; `[1,3,5]` is a list.
 */
export function joinDecimals(items: readonly Place[], context: Context): readonly Place[] {
  const { text } = context;
  const isTight = (k: number) => text.slice(items[k]!.end, items[k + 1]!.start) === ",";
  const gaps = items.slice(1).map((_, k) => isTight(k));
  const mixed = gaps.includes(true) && gaps.includes(false);
  const joined: Place[] = [];
  for (let k = 0; k < items.length; k++) {
    const item = items[k]!;
    const next = items[k + 1];
    const decimal =
      next?.style === "PLAIN" &&
      typeof next.value === "string" &&
      gaps[k] === true &&
      isDecimalComma(item, next.value) &&
      (mixed || /^[+-]?0$/.test(String(item.value)));
    if (decimal) {
      joined.push(joinDecimal(item, next, String(next.value), context));
      k++;
    } else joined.push(item);
  }
  return joined;
}

/** Words that begin no entry of a list, but the rest of a sentence: after a comma they continue it. */
const CONTINUES =
  /^(?:and|or|but|nor|with|without|from|until|till|to|up to|for|of|as|at|on|in|by|since|not|except|then|which|that|so|if|when|where|because|before|after|unless|also|only|(?:19|20)\d\d(?: on|-|–| to|$))\b/;

/** Warns of a sentence that an unquoted comma parts into entries: `[ Guides not replaced, as agreed ]`. */
export function warnOfSentences(items: readonly Place[], { file, text, faults }: Context): void {
  items.slice(1).forEach((item, k) => {
    const before = items[k]!;
    if (before.style !== "PLAIN" || item.style !== "PLAIN") return;
    if (!/^\p{Lu}/u.test(String(before.value)) || !CONTINUES.test(String(item.value))) return;
    const whole = text.slice(before.start, item.end).replace(/\s+/g, " ");
    faults.push({
      severity: "warning",
      code: "source/comma",
      message: `the comma makes two entries of this: \`${item.value}\` stands as one of its own`,
      at: { file, start: before.start, end: item.end },
      hint: `if it is one sentence, write ${quoted(whole)}`,
    });
  });
}
