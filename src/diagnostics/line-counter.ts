import type { Sources } from "./diagnostic.ts";
/** A text with the offsets of its lines. */
export type Lines = { readonly text: string; readonly starts: readonly number[] };

/** Line and column, both from 1; columns count characters. */
type Place = {
  readonly line: number;
  readonly column: number;
  /** Offsets of the line's text, without its line break and the file's byte order mark. */
  readonly lineStart: number;
  readonly lineEnd: number;
};

const BOM = "\ufeff";

/** Finds the line starts of a text once, for many look-ups. */
export function splitLines(text: string): Lines {
  const starts = [text.startsWith(BOM) ? 1 : 0];
  for (let at = text.indexOf("\n"); at >= 0; at = text.indexOf("\n", at + 1)) starts.push(at + 1);
  return { text, starts };
}

/** Line and column of an offset, by binary search; offsets outside the text are clamped. */
export function placeOf(lines: Lines, offset: number): Place {
  const { text, starts } = lines;
  const inside = Math.min(Math.max(offset, starts[0]!), text.length);
  let low = 0;
  let high = starts.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (starts[middle]! <= inside) low = middle;
    else high = middle - 1;
  }
  const lineStart = starts[low]!;
  const next = starts[low + 1];
  const end = next === undefined ? text.length : next - 1;
  const lineEnd = end > lineStart && text[end - 1] === "\r" ? end - 1 : end;
  const column = [...text.slice(lineStart, Math.min(inside, lineEnd))].length + 1;
  return { line: low + 1, column, lineStart, lineEnd };
}

/** Looks up the lines of files by name; splits each text once. */
export function createLineLookup(sources: Sources): (file: string) => Lines | undefined {
  const linesByFile = new Map<string, Lines>();
  return (file) => {
    const text = sources.get(file);
    if (text !== undefined && !linesByFile.has(file)) linesByFile.set(file, splitLines(text));
    return linesByFile.get(file);
  };
}
