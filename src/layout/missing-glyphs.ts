import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import type { Sheet } from "../sheet/content.ts";
import type { Measure } from "../text/measure.ts";

/** Fields that name or choose something and are never drawn. */
const notDrawn = new Set(["kind", "align", "style", "mark", "image", "alt", "link", "color", "marker", "axis", "name"]);

/** A character that the font lacks, the text it stands in, and what to say of it where nobody knows its place in the job. */
export type MissingGlyph = { readonly letter: string; readonly text: string; readonly about: Diagnostic };

/** Characters the font cannot draw, in every text they stand in, found before anything is set: drawn, they would be nothing. */
export function missingGlyphs(sheet: Sheet, measure: Measure): readonly MissingGlyph[] {
  const look = (value: unknown, block: string) => {
    const texts = new Set<string>();
    gatherTexts(value, texts);
    return { texts, block };
  };
  const places = [
    look(sheet.furniture, "furniture"),
    look(sheet.more, "more"),
    ...sheet.rows.flatMap(({ cells }) => cells.map(({ block }) => look(block.parts, block.name))),
  ];
  // Almost always the font has every letter: they are asked for at once, and where each stands only if one is missing.
  const letters = new Set<string>();
  for (const { texts } of places) for (const text of texts) for (const letter of text) letters.add(letter);
  if (measure.missing(plain([...letters].join(""))).length === 0) return [];
  return places.flatMap(({ texts, block }) =>
    [...texts].flatMap((text) =>
      measure.missing(plain(text)).map((letter) => ({
        letter,
        text,
        about: {
          severity: "error",
          code: "layout/missing-glyph",
          message: `the font has no \`${letter}\` (${codeOf(letter)}), wanted in block ${block}`,
          note: `it stands in \`${text}\``,
          hint: instead(letter, measure),
        } as const,
      })),
    ),
  );
}

/** Line ends and tabs are never drawn. */
const plain = (text: string) => text.replace(/[\n\t\r]/g, " ");

const codeOf = (letter: string) => `U+${letter.codePointAt(0)!.toString(16).toUpperCase().padStart(4, "0")}`;

/** Signs of the trade and of forms that the font has only in another shape. */
const ALIKE: Readonly<Record<string, string>> = {
  "\u2300": "Ø",
  "\u2713": "yes",
  "\u2714": "yes",
  "\u2717": "no",
  "\u2718": "no",
  "\u25a1": "square",
};

/** What to write: the same sign in plain characters (Unicode's compatibility form), if the font has those. */
function instead(letter: string, measure: Measure): string {
  const other = ALIKE[letter] ?? letter.normalize("NFKC");
  return other !== letter && measure.missing(other).length === 0
    ? `write \`${other}\``
    : "write it in Latin, Greek or Cyrillic letters, or in words";
}

/** Every text in plain data, but for what only names or chooses something. */
function gatherTexts(value: unknown, texts: Set<string>): void {
  if (typeof value === "string") texts.add(value);
  if (typeof value !== "object" || value === null) return;
  if (Array.isArray(value)) {
    for (const inner of value) if (typeof inner !== "number") gatherTexts(inner, texts);
    return;
  }
  for (const key in value)
    if (!notDrawn.has(key) || isName(key, value)) gatherTexts((value as Record<string, unknown>)[key], texts);
}

/** A shop's or signer's name is drawn; a series' name is not. */
const isName = (key: string, owner: object) => key === "name" && !("curve" in owner);
