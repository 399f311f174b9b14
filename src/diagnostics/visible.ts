/** Terminal escapes as a whole; then whatever moves the cursor, hides or turns the direction of writing. */
const ESCAPE = /\u001b(?:\[[0-?]*[ -/]*[@-~]|\][^\u0007\u001b]*(?:\u0007|\u001b\\)?|[@-Z\\-_])/g;
const UNSEEN =
  /[\u0000-\u001f\u007f-\u009f\u00ad\u061c\u200b-\u200f\u2028\u2029\u202a-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb]/u;

/** One character as it may stand on a terminal: nothing for one that cannot be seen, four blanks for a tab. */
export const visibleCharacter = (character: string) =>
  character === "\t" ? "    " : UNSEEN.test(character) ? "" : character;

/** What is seen as it is, one column a character: nearly all that is ever shown. */
const PLAIN = /^[ -~]*$/;

/** One column a character as well: letters of the west, dashes, quotes, and the signs of figures. */
const NARROW = /^[ -~\u00a0-\u00ac\u00ae-\u02ff\u2000-\u200a\u2010-\u2027\u202f-\u205e\u2212]*$/;

/** Terminal columns that a visible text takes. */
export const columnsOfText = (text: string): number =>
  NARROW.test(text) ? text.length : [...text].reduce((sum, character) => sum + columnsOf(character), 0);

/** A text as it may stand on a terminal, on one line. */
export const visible = (text: string) =>
  PLAIN.test(text) ? text : [...text.replace(ESCAPE, "").replace(/\s*[\r\n]+\s*/g, " ")].map(visibleCharacter).join("");

/** Where the terminal escapes in a text stand, so that they can be left out with places kept. */
export const escapesIn = (text: string): readonly { readonly start: number; readonly end: number }[] =>
  [...text.matchAll(ESCAPE)].map((match) => ({ start: match.index, end: match.index + match[0].length }));

/** Terminal columns that a visible character takes. */
export function columnsOf(character: string): number {
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
