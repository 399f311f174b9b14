import { unicodeOf, usedFonts } from "./fonts-in-file.ts";
import { pageContents } from "./page-content.ts";
import { get, type PdfFile } from "./pdf-file.ts";
import { isKind, nameOf, type Value } from "./values.ts";

/** The words of each marked content, by `page/mcid`, through the fonts' own maps to Unicode. */
export function textOfPages(file: PdfFile): ReadonlyMap<string, string> {
  const maps = new Map(usedFonts(file).map((font) => [font.dict, unicodeOf(file, font)]));
  const found = new Map<string, string>();
  for (const { number, operations, resources } of pageContents(file)) {
    let map: ReadonlyMap<number, string> | undefined;
    for (const { operator, operands, marks } of operations) {
      if (operator === "Tf") {
        const font = get(file, resources, "Font", nameOf(operands[0]) ?? "");
        map = isKind(font, "dict") ? maps.get(font) : undefined;
      }
      const mcid = marks.find((mark) => mark.mcid !== undefined)?.mcid;
      if (mcid === undefined || map === undefined || !["Tj", "TJ"].includes(operator)) continue;
      const parts: readonly Value[] = Array.isArray(operands[0]) ? operands[0] : operands.slice(-1);
      const key = `${number}/${mcid}`;
      found.set(key, (found.get(key) ?? "") + parts.map((part) => lettersOf(part, map!)).join(""));
    }
  }
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
