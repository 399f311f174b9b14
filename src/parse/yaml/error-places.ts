/** A range of offsets [start, end). */
type Stretch = { readonly start: number; readonly end: number };
type OpenBracket = { readonly start: number; readonly closing: string; readonly swallowed: number };

/** Offset of the first character on an offset's line. */
export const lineStart = (text: string, at: number) => text.lastIndexOf("\n", at - 1) + 1;

/** Offset of the end of the line that contains `at`. */
export const lineEnd = (text: string, at: number) => {
  const end = text.indexOf("\n", at);
  return (end < 0 ? text.length : end) - (end > 0 && text[end - 1] === "\r" ? 1 : 0);
};

/** From an offset to the end of the words on its line. */
export function restOfLine(text: string, at: number): Stretch {
  const end = lineEnd(text, at);
  return { start: at, end: Math.max(at + 1, at + text.slice(at, end).trimEnd().length) };
}

/** From the first word of an offset's line to its last. */
export function wholeLine(text: string, at: number): Stretch {
  const start = lineStart(text, at);
  const indent = /^[ \t]*/.exec(text.slice(start))![0].length;
  return restOfLine(text, start + indent);
}

/** A quoted text that is never closed, up to the end of its first line. */
export function findOpenQuote(text: string, before: number, quote: string): Stretch {
  const opening = new RegExp(`(?:^|[\\s:[{,-])${quote}`, "g");
  let found = before;
  // The parser reports the end of the file. The mistake is the first quote that opens a value and is not closed on its line.
  for (const match of text.slice(0, before).matchAll(opening)) {
    const at = match.index + match[0].length - 1;
    const after = text.slice(at + 1, lineEnd(text, at));
    if (!after.includes(quote)) {
      found = at;
      break;
    }
  }
  return restOfLine(text, found);
}

/** The innermost bracket open at an offset; `swallowed` is the offset of a comment that holds its closing bracket, else −1. */
export function openBracket(text: string, at: number): OpenBracket | undefined {
  const open: number[] = [];
  let swallowed = -1;
  for (let i = 0; i < at; i++) {
    const c = text[i];
    if (c === "#" && (i === 0 || /\s/.test(text[i - 1]!))) {
      const end = lineEnd(text, i);
      if (open.length > 0 && /[\]}]/.test(text.slice(i, end))) swallowed = i;
      i = end;
    } else if ((c === "[" || c === "{") && /[\s:,[{-]/.test(text[i - 1] ?? " ")) open.push(i);
    else if ((c === "]" || c === "}") && open.length > 0) open.pop();
  }
  const start = open.at(-1);
  return start === undefined ? undefined : { start, closing: text[start] === "[" ? "]" : "}", swallowed };
}
