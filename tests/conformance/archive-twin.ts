import { programOf, programWidths, usedFonts } from "./fonts-in-file.ts";
import { addObject, catalog, content, get, type PdfFile, readPdf, writePdf } from "./pdf-file.ts";
import { isKind } from "./values.ts";

/**
 * The same sheet as a file of PDF/A-1b, for a validator that knows part 1 only: what part 3 allows beyond it (files inside,
 * packed objects, packed metadata) taken out, and what only part 1 wants (a list of each font's glyphs) put in.
 */
export function archiveTwin(bytes: Buffer): Buffer {
  const file = readPdf(bytes);
  const root = catalog(file);
  if (!isKind(root, "dict")) throw new Error("no catalog");
  root.entries.delete("AF");
  root.entries.delete("Names");
  for (const [number, value] of file.objects)
    if (isKind(value, "dict") && (value.entries.has("EF") || value.entries.has("AFRelationship")))
      file.objects.delete(number);
  for (const [number, value] of file.objects)
    if (isKind(value, "stream") && get(file, value, "Params")) file.objects.delete(number);
  const xmp = get(file, root, "Metadata");
  if (!isKind(xmp, "stream")) throw new Error("no metadata");
  const packet = content(file, xmp).toString("utf8");
  const claim = /<pdfaid:part>3<\/pdfaid:part><pdfaid:conformance>A</;
  xmp.data = Buffer.from(packet.replace(claim, "<pdfaid:part>1</pdfaid:part><pdfaid:conformance>B<"));
  xmp.entries.delete("Filter");
  xmp.entries.set("Length", xmp.data.length);
  usedFonts(file).forEach((font) => {
    listGlyphs(file, font);
  });
  return writePdf(file, "1.4");
}

/** CIDSet: a bit for each glyph of the subset (ISO 32000-1, table 124). */
function listGlyphs(file: PdfFile, font: ReturnType<typeof usedFonts>[number]): void {
  const descriptor = get(file, font.descendant, "FontDescriptor");
  const program = programOf(file, font);
  if (!isKind(descriptor, "dict") || !program) throw new Error(`${font.name} is not embedded`);
  const glyphs = programWidths(program).length;
  const bits = Buffer.alloc(Math.ceil(glyphs / 8));
  for (let glyph = 0; glyph < glyphs; glyph++) bits[glyph >> 3]! |= 0x80 >> (glyph & 7);
  const entries = new Map([["Length", bits.length]]);
  descriptor.entries.set("CIDSet", addObject(file, { kind: "stream", entries, data: bits }));
}
