/** Whole terminal escape sequences; below, control, invisible and bidirectional characters. */
const ESCAPE = /\u001b(?:\[[0-?]*[ -/]*[@-~]|\][^\u0007\u001b]*(?:\u0007|\u001b\\)?|[@-Z\\-_])/g;
const INVISIBLE =
  /[\u0000-\u001f\u007f-\u009f\u00ad\u061c\u200b-\u200f\u2028\u2029\u202a-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb]/u;

/** Printable form of a character: empty for an invisible one, four blanks for a tab. */
export const visibleCharacter = (character: string) =>
  character === "\t" ? "    " : INVISIBLE.test(character) ? "" : character;

/** Printable ASCII, the fast path: shown unchanged, one column a character. */
const PLAIN = /^[ -~]*$/;

/** Other characters of one column: Latin letters, punctuation and the minus sign. */
const NARROW = /^[ -~\u00a0-\u00ac\u00ae-\u02ff\u2000-\u200a\u2010-\u2027\u202f-\u205e\u2212]*$/;

/** Terminal columns of a visible text. */
export const columnsOfText = (text: string): number =>
  NARROW.test(text) ? text.length : [...text].reduce((sum, character) => sum + columnsOfCharacter(character), 0);

/** A text on one line without terminal escapes and invisible characters. */
export const visibleText = (text: string) =>
  PLAIN.test(text) ? text : [...text.replace(ESCAPE, "").replace(/\s*[\r\n]+\s*/g, " ")].map(visibleCharacter).join("");

/** Offsets of the terminal escapes in a text. */
export const findEscapes = (text: string): readonly { readonly start: number; readonly end: number }[] =>
  [...text.matchAll(ESCAPE)].map((match) => ({ start: match.index, end: match.index + match[0].length }));

/** Terminal columns of a visible character. */
export function columnsOfCharacter(character: string): number {
  if (/^\p{Mark}$/u.test(character)) return 0;
  return /^[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}\p{Script=Hangul}\p{Emoji_Presentation}\uff01-\uff60]$/u.test(
    character,
  )
    ? 2
    : character.length === 0
      ? 0
      : character === "    "
        ? 4
        : 1;
}
