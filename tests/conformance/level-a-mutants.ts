import { unicodeOf } from "./fonts-in-file.ts";
import { bySubtype, edited, element, entries, font, mapRole, page, rewrite, xmp } from "./harm.ts";
import { catalog, content, get } from "./pdf-file.ts";
import { isKind, text } from "./values.ts";

/** Maps a letter of the first font to another. */
const remapLetter = (to: string) =>
  font((found, file) => {
    const map = get(file, found.dict, "ToUnicode");
    if (!isKind(map, "stream")) throw new Error("no map to Unicode");
    const letter = unicodeOf(file, found).get(1)!;
    rewrite(map, Buffer.from(content(file, map).toString("latin1").replace(`[<${letter}>`, `[<${to}>`), "latin1"));
  });

/** For each rule of level A a small harm that breaks it. */
export const levelAMutants: Readonly<Record<string, (bytes: Buffer) => Buffer>> = {
  "PDF/A-3a 6.2.11.7-1": font(({ dict }) => dict.entries.delete("ToUnicode")),
  "PDF/A-3a 6.2.11.7-2": remapLetter("feff"),
  "PDF/A-3a 6.2.11.7-3": remapLetter("ece0"),
  "PDF/A-3a 6.6.4-3": xmp(/<pdfaid:conformance>A/, "<pdfaid:conformance>B"),
  "PDF/A-3a 6.7.2-1": edited((file) => entries(catalog(file)).delete("MarkInfo")),
  "PDF/A-3a 6.7.3-1": edited((file) => entries(get(file, catalog(file), "StructTreeRoot")).delete("K")),
  "PDF/A-3a 6.7.3-2": mapRole("TD", "TH"),
  "PDF/A-3a 6.7.4-1": element("P", ({ dict }) => dict.entries.set("Lang", text("plain English"))),
  "PDF/A-3a 6.7.3 artifacts": page((operators) => `${operators}\n/Artifact BMC\n0 0 m 9 9 l S\nEMC`),
  // A second text behind the first of the page, where no space ends it.
  "PDF/A-3a 6.7.3 word breaks": page((operators) => operators.replace(/BT\n[^B]*?ET/, "$&\n$&")),
  "PDF/A-3a 6.7.5 alternate descriptions": element("Figure", ({ dict }) => dict.entries.set("Alt", text(" "))),
  "PDF/A-3a 6.7.6 annotations": edited((file) => bySubtype(file, "Link").entries.delete("Contents")),
  // A word drawn as a shape.
  "PDF/A-3a 6.7.7 replacement text": page((operators) =>
    operators.replace(/(MCID \d+[^B]*BDC\n)[\s\S]*?EMC/, "$10 0 m 9 9 l S\nEMC"),
  ),
};
