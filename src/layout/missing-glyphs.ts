import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import type { Sheet } from "../sheet/content.ts";
import type { Measure } from "../text/measure.ts";

/** Fields that name or choose something and are never drawn. */
const undrawnKeys = new Set([
  "kind",
  "align",
  "style",
  "mark",
  "image",
  "alt",
  "link",
  "color",
  "marker",
  "axis",
  "name",
]);

/** A character that the font lacks, its text, and a diagnostic for callers that cannot locate it in the job. */
export type MissingGlyph = { readonly letter: string; readonly text: string; readonly about: Diagnostic };

/** Finds the characters that the font lacks, in every text, before layout. */
export function missingGlyphs(sheet: Sheet, measure: Measure): readonly MissingGlyph[] {
  const look = (value: unknown, block: string) => {
    const texts = new Set<string>();
    collectTexts(value, texts);
    return { texts, block };
  };
  const places = [
    look(sheet.furniture, "furniture"),
    look(sheet.more, "more"),
    ...sheet.rows.flatMap(({ cells }) => cells.map(({ block }) => look(block.parts, block.name))),
  ];
  // Tests all letters at once first; searches text by text only if one is missing.
  const letters = new Set<string>();
  for (const { texts } of places) for (const text of texts) for (const letter of text) letters.add(letter);
  if (measure.missing(withoutControls([...letters].join(""))).length === 0) return [];
  return places.flatMap(({ texts, block }) =>
    [...texts].flatMap((text) =>
      measure.missing(withoutControls(text)).map((letter) => ({
        letter,
        text,
        about: {
          severity: "error",
          code: "layout/missing-glyph",
          message: `the font has no \`${letter}\` (${formatCodePoint(letter)}), wanted in block ${block}`,
          block,
          note: `it stands in \`${text}\``,
          hint: substituteHint(letter, measure),
        } as const,
      })),
    ),
  );
}

/** Line ends and tabs are never drawn. */
const withoutControls = (text: string) => text.replace(/[\n\t\r]/g, " ");

const formatCodePoint = (letter: string) => `U+${letter.codePointAt(0)!.toString(16).toUpperCase().padStart(4, "0")}`;

/** Substitutes for signs that the font lacks. */
const SUBSTITUTES: Readonly<Record<string, string>> = {
  "\u2300": "Ø",
  "\u2713": "yes",
  "\u2714": "yes",
  "\u2717": "no",
  "\u2718": "no",
  "\u25a1": "square",
};

/** Hint: the sign in Unicode's compatibility form (NFKC), if the font has it. */
function substituteHint(letter: string, measure: Measure): string {
  const other = SUBSTITUTES[letter] ?? letter.normalize("NFKC");
  return other !== letter && measure.missing(other).length === 0
    ? `write \`${other}\``
    : "write it in Latin, Greek or Cyrillic letters, or in words";
}

/** Collects every text that is drawn. */
function collectTexts(value: unknown, texts: Set<string>): void {
  if (typeof value === "string") texts.add(value);
  if (typeof value !== "object" || value === null) return;
  if (Array.isArray(value)) {
    for (const inner of value) if (typeof inner !== "number") collectTexts(inner, texts);
    return;
  }
  for (const key in value)
    if (!undrawnKeys.has(key) || isDrawnName(key, value)) collectTexts((value as Record<string, unknown>)[key], texts);
}

/** A shop's or signer's name is drawn; a series' name is not. */
const isDrawnName = (key: string, owner: object) => key === "name" && !("curve" in owner);
