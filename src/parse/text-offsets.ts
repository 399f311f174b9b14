import type { Span } from "../diagnostics/diagnostic.ts";

/** The span of characters [from, to) of a one-line scalar; the whole scalar where folding or escapes hide the place. */
export function spanInLine(text: string, value: string, quoted: boolean, whole: Span, from: number, to: number): Span {
  const start = whole.start + (quoted ? 1 : 0);
  if (text.slice(start, start + value.length) !== value) return whole;
  return { file: whole.file, start: start + from, end: start + to };
}

/** Maps an offset in a scalar's text to one in its file. */
export type OffsetMap = (offset: number) => number;

/** The span of characters [from, to) of a literal block's text. */
export function spanInLiteral(at: OffsetMap, file: string, from: number, to: number): Span {
  const start = at(from);
  // An end at the start of a line belongs to the line before.
  return { file, start, end: to > from ? Math.max(start, at(to - 1) + 1) : start };
}

/**
 * Maps offsets in a literal block's text to the file, whose lines also have an indent and perhaps a carriage return. `mark` is
 * the offset of `|`, `value` the block's text.
 */
export function literalOffsets(text: string, mark: number, value: string): OffsetMap {
  let source = text.indexOf("\n", mark) + 1;
  let read = 0;
  const lines = value.split("\n").map((line) => {
    const next = text.indexOf("\n", source);
    const end = next < 0 ? text.length : next;
    const length = end - source - (text[end - 1] === "\r" ? 1 : 0);
    const found = { read, at: source + Math.max(0, length - line.length), length: line.length };
    read += line.length + 1;
    source = end + 1;
    return found;
  });
  const lineOf = (offset: number) => {
    let low = 0;
    let high = lines.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (lines[middle]!.read <= offset) low = middle;
      else high = middle - 1;
    }
    return lines[low]!;
  };
  // The cells of a table are looked up in order.
  let line = lines[0]!;
  return (offset) => {
    if (offset < line.read || offset > line.read + line.length) line = lineOf(offset);
    return Math.min(line.at + Math.min(Math.max(0, offset - line.read), line.length), text.length);
  };
}
