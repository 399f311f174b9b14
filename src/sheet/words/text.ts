/** First letter large, one full stop at the end. */
export function toSentence(text: string): string {
  const trimmed = text.trim();
  if (trimmed === "") return "";
  return /[.!?]$/.test(trimmed) ? capitalize(trimmed) : `${capitalize(trimmed)}.`;
}

/** First letter large. */
export const capitalize = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** First letter small, unless the word is an abbreviation or a code. */
export const lowercaseFirst = (text: string): string =>
  /^\p{Lu}\p{Ll}/u.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;

/** "1 port", "2 ports". */
export const countWords = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`;

/** "a", "a and b", "a, b and c". */
export function joinWords(words: readonly string[], last = "and"): string {
  if (words.length < 2) return words[0] ?? "";
  return `${words.slice(0, -1).join(", ")} ${last} ${words.at(-1)}`;
}
