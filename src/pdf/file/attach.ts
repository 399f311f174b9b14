import type { Attachment } from "../../embed/embedded-files.ts";
import type { PdfDocument } from "./pdf-document.ts";

/**
 * Embeds files in the given order. pdfkit's own method is not used, because it writes the checksum in the wrong form; the
 * checksum is optional (ISO 32000-1, table 46).
 */
export function embedFiles(doc: PdfDocument, files: readonly Attachment[], date: Date): void {
  if (files.length === 0) return;
  doc._root.data.AF = files.map((file) => {
    const stream = doc.ref({
      Type: "EmbeddedFile",
      Subtype: file.type.replaceAll("/", "#2F"),
      Params: { Size: file.bytes.length, CreationDate: date, ModDate: date },
    });
    stream.end(file.bytes);
    const spec = doc.ref({
      Type: "Filespec",
      AFRelationship: file.relationship,
      F: new String(file.name),
      UF: new String(file.name),
      Desc: new String(file.description),
      EF: { F: stream, UF: stream },
    });
    spec.end();
    doc.addNamedEmbeddedFile(file.name, spec);
    return spec;
  });
}
