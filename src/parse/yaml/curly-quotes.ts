import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { lineEnd } from "./error-places.ts";
import { quoted } from "./quoted.ts";
import type { FlatToken } from "./tokens.ts";

const OPENS = /^[\u201c\u201d\u201e\u201f\u2018\u201a\u201b]/;
/** A closing quote at the end of a value. */
const CLOSES = /[\u201c\u201d\u201f\u2018\u2019\u201b"](?=\s*(?:[,\]}]|#|$))/;
/** Upper limit of reported errors. */
const MOST_FAULTS = 50;

/**
 * Reports values in curly quotes, as word processors write them, and puts straight ones in their place, which keeps all offsets,
 * so that the rest of the file can be parsed.
 */
export function straightenQuotes(
  file: string,
  text: string,
  tokens: readonly FlatToken[],
): { readonly text: string; readonly faults: readonly Diagnostic[] } {
  const faults: Diagnostic[] = [];
  let done = "";
  let kept = 0;
  for (const { type, offset, source = "" } of tokens) {
    if (type !== "scalar" || offset < kept || !OPENS.test(source) || faults.length === MOST_FAULTS) continue;
    const end = lineEnd(text, offset);
    const close = CLOSES.exec(text.slice(offset + 1, end));
    const open = text.slice(offset, end).replace(/\s*[\]}][\s\]},]*$/, "");
    const stop = close ? offset + 2 + close.index : offset + open.trimEnd().length;
    const inner = text.slice(offset + 1, close ? stop - 1 : stop);
    faults.push({
      severity: "error",
      code: "source/curly-quotes",
      message: "curly quotes are letters like any other: here straight ones are wanted",
      at: { file, start: offset, end: stop },
      hint: `write ${quoted(inner)}`,
    });
    const straight = close && !/["\\]/.test(inner) ? `"${inner}"` : `"${inner.replace(/["\\]/g, " ").slice(0, -1)}"`;
    done += text.slice(kept, offset) + straight.padEnd(stop - offset);
    kept = stop;
  }
  return { text: done + text.slice(kept), faults };
}
