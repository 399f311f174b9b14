import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import type { Sheet } from "../sheet/content.ts";
import type { Measure } from "../text/measure.ts";

/** Fields that name or choose something and are never drawn. */
const notDrawn = new Set(["kind", "align", "style", "mark", "image", "alt", "link", "color", "marker", "axis", "name"]);

/** A character that the font lacks, the text it stands in, and what to say of it where nobody knows its place in the job. */
export type MissingGlyph = { readonly letter: string; readonly text: string; readonly about: Diagnostic };

/** Characters the font cannot draw, in every text they stand in, found before anything is set: drawn, they would be nothing. */
export function missingGlyphs(sheet: Sheet, measure: Measure): readonly MissingGlyph[] {
  const look = (value: unknown, block: string) =>
    [...new Set(strings(value))].flatMap((text) =>
      measure.missing(text.replace(/[\n\t\r]/g, " ")).map((letter) => ({
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
    );
  return [
    ...look(sheet.furniture, "furniture"),
    ...look(sheet.more, "more"),
    ...sheet.rows.flatMap(({ cells }) => cells.flatMap(({ block }) => look(block.parts, block.name))),
  ];
}

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
  const plain = ALIKE[letter] ?? letter.normalize("NFKC");
  return plain !== letter && measure.missing(plain).length === 0
    ? `write \`${plain}\``
    : "write it in Latin, Greek or Cyrillic letters, or in words";
}

function* strings(value: unknown): Generator<string> {
  if (typeof value === "string") yield value;
  else if (Array.isArray(value)) for (const inner of value) yield* strings(inner);
  else if (typeof value === "object" && value !== null)
    for (const [key, inner] of Object.entries(value))
      if (!notDrawn.has(key) || isName(key, value)) yield* strings(inner);
}

/** A shop's or signer's name is drawn; a series' name is not. */
const isName = (key: string, owner: object) => key === "name" && !("curve" in owner);
