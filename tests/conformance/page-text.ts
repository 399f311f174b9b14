import { unicodeOf, usedFonts } from "./fonts-in-file.ts";
import { pageContents } from "./page-content.ts";
import { get, once, type PdfFile } from "./pdf-file.ts";
import { isKind, nameOf, type Value } from "./values.ts";

/** What a text object shows, and in which marked content, as `page/mcid`. */
export type Piece = { readonly key: string; readonly text: string };

/** Every text object within marked content, in the order in which the pages show them, through the fonts' own maps to Unicode. */
export const spokenPieces = once((file: PdfFile): readonly Piece[] => {
  const maps = new Map(usedFonts(file).map((font) => [font.dict, unicodeOf(file, font)]));
  return pageContents(file).flatMap(({ number, operations, resources }) => {
    const pieces: { key: string; text: string }[] = [];
    let map: ReadonlyMap<number, string> | undefined;
    let open: { key: string; text: string } | undefined;
    for (const { operator, operands, marks } of operations) {
      if (operator === "BT") open = undefined;
      if (operator === "Tf") {
        const font = get(file, resources, "Font", nameOf(operands[0]) ?? "");
        map = isKind(font, "dict") ? maps.get(font) : undefined;
      }
      const mcid = marks.find((mark) => mark.mcid !== undefined)?.mcid;
      if (mcid === undefined || map === undefined || !["Tj", "TJ"].includes(operator)) continue;
      const parts: readonly Value[] = Array.isArray(operands[0]) ? operands[0] : operands.slice(-1);
      const text = parts.map((part) => lettersOf(part, map!)).join("");
      if (open) open.text += text;
      else {
        open = { key: `${number}/${mcid}`, text };
        pieces.push(open);
      }
    }
    return pieces;
  });
});

/** The words of each marked content, by `page/mcid`. */
export function textOfPages(file: PdfFile): ReadonlyMap<string, string> {
  const found = new Map<string, string>();
  for (const { key, text } of spokenPieces(file)) found.set(key, (found.get(key) ?? "") + text);
  return found;
}

function lettersOf(part: Value, map: ReadonlyMap<number, string>): string {
  if (!isKind(part, "text")) return "";
  let letters = "";
  for (let i = 0; i + 1 < part.text.length; i += 2) {
    const hex = map.get(part.text.charCodeAt(i) * 256 + part.text.charCodeAt(i + 1)) ?? "";
    letters += Buffer.from(hex.replaceAll(" ", ""), "hex").swap16().toString("utf16le");
  }
  return letters;
}
