import type { Span } from "../diagnostics/diagnostic.ts";
import type { Path, SourceDocument, YamlValue } from "../parse/yaml/source-document.ts";

/**
 * Where a character that came out in `text` was typed: in values that hold it beside the same words, else, where the page
 * says it in other words, in every value and key that holds it.
 */
export function findCharacter(letter: string, text: string, documents: readonly SourceDocument[]): readonly Span[] {
  const all = documents.flatMap((document) => typedIn(document, document.value, [], letter));
  const printed = text.replace(/\s+/g, " ");
  const same = all.filter(({ beside }) => beside.some((words) => printed.includes(words)));
  return (same.length > 0 ? same : all).map(({ span }) => span);
}

/** `beside`: the word that holds the character, together with its neighbours. */
type Typed = { readonly span: Span; readonly beside: readonly string[] };

function typedIn(document: SourceDocument, value: YamlValue, path: Path, letter: string): readonly Typed[] {
  if (typeof value === "string")
    return placesIn(value, letter).map((start) => ({
      span: document.textSpan(path, start, start + letter.length),
      beside: besideOf(value, start),
    }));
  if (Array.isArray(value)) return value.flatMap((inner, i) => typedIn(document, inner, [...path, i], letter));
  return Object.entries(value).flatMap(([key, inner]) => [
    ...(key.includes(letter) ? [{ span: document.keySpan([...path, key]), beside: [key] }] : []),
    ...typedIn(document, inner, [...path, key], letter),
  ]);
}

function placesIn(text: string, letter: string): readonly number[] {
  const places: number[] = [];
  for (let at = text.indexOf(letter); at >= 0; at = text.indexOf(letter, at + letter.length)) places.push(at);
  return places;
}

/** The word at a place with the one before it, and with the one after it; alone where it is all there is. */
function besideOf(text: string, at: number): readonly string[] {
  const [before] = /(?:\S+\s+)?\S*$/.exec(text.slice(0, at))!;
  const [after] = /^\S*(?:\s+\S+)?/.exec(text.slice(at))!;
  const word = `${/\S*$/.exec(before)![0]}${/^\S*/.exec(after)![0]}`;
  const both = [before + /^\S*/.exec(after)![0], /\S*$/.exec(before)![0] + after].map((words) =>
    words.replace(/\s+/g, " "),
  );
  const more = both.filter((words) => words !== word);
  return more.length > 0 ? more : [word];
}
