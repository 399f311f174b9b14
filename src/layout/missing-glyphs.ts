import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import type { Sheet } from "../sheet/content.ts";
import type { Measure } from "../text/measure.ts";

/** Fields that name or choose something and are never drawn. */
const notDrawn = new Set(["kind", "align", "style", "mark", "image", "alt", "link", "color", "marker", "axis", "name"]);

/** Characters the font cannot draw, found before anything is set: drawn, they would be nothing at all. */
export function missingGlyphs(sheet: Sheet, measure: Measure): readonly Diagnostic[] {
  const found: Diagnostic[] = [];
  const look = (value: unknown, block: string) => {
    const seen = new Set<string>();
    for (const text of strings(value))
      for (const letter of measure.missing(text.replace(/[\n\t\r]/g, " "))) {
        if (seen.has(letter)) continue;
        seen.add(letter);
        const code = letter.codePointAt(0)!.toString(16).toUpperCase().padStart(4, "0");
        found.push({
          severity: "error",
          code: "layout/missing-glyph",
          message: `the font has no \`${letter}\` (U+${code}), wanted in block ${block}`,
          note: `it stands in \`${text}\``,
          hint: "write it with another character",
        });
      }
  };
  look(sheet.furniture, "furniture");
  look(sheet.more, "more");
  for (const row of sheet.rows) for (const { block } of row.cells) look(block.parts, block.name);
  return found;
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
