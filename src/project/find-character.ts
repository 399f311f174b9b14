import type { Span } from "../diagnostics/diagnostic.ts";
import type { Path, SourceDocument, YamlValue } from "../parse/yaml/source-document.ts";

/**
 * Finds where a character of the printed `text` was typed: in values with the same neighbouring words, else, where the sheet
 * rephrases the value, in every value and key that contains it.
 */
export function findCharacter(letter: string, text: string, documents: readonly SourceDocument[]): readonly Span[] {
  const all = documents.flatMap((document) => findOccurrences(document, document.value, [], letter));
  const printed = text.replace(/\s+/g, " ");
  const same = all.filter(({ wordPairs }) => wordPairs.some((words) => printed.includes(words)));
  return (same.length > 0 ? same : all).map(({ span }) => span);
}

/** `wordPairs`: the word with the character, joined with each neighbouring word. */
type Occurrence = { readonly span: Span; readonly wordPairs: readonly string[] };

function findOccurrences(
  document: SourceDocument,
  value: YamlValue,
  path: Path,
  letter: string,
): readonly Occurrence[] {
  if (typeof value === "string")
    return findIndexes(value, letter).map((start) => ({
      span: document.textSpan(path, start, start + letter.length),
      wordPairs: pairsAround(value, start),
    }));
  if (Array.isArray(value)) return value.flatMap((inner, i) => findOccurrences(document, inner, [...path, i], letter));
  return Object.entries(value).flatMap(([key, inner]) => [
    ...(key.includes(letter) ? [{ span: document.keySpan([...path, key]), wordPairs: [key] }] : []),
    ...findOccurrences(document, inner, [...path, key], letter),
  ]);
}

function findIndexes(text: string, letter: string): readonly number[] {
  const places: number[] = [];
  for (let at = text.indexOf(letter); at >= 0; at = text.indexOf(letter, at + letter.length)) places.push(at);
  return places;
}

/** The word at an offset joined with the word before and the word after; the word alone when it has no neighbours. */
function pairsAround(text: string, at: number): readonly string[] {
  const [before] = /(?:\S+\s+)?\S*$/.exec(text.slice(0, at))!;
  const [after] = /^\S*(?:\s+\S+)?/.exec(text.slice(at))!;
  const word = `${/\S*$/.exec(before)![0]}${/^\S*/.exec(after)![0]}`;
  const both = [before + /^\S*/.exec(after)![0], /\S*$/.exec(before)![0] + after].map((words) =>
    words.replace(/\s+/g, " "),
  );
  const more = both.filter((words) => words !== word);
  return more.length > 0 ? more : [word];
}
