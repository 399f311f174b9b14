import PDFDocument from "pdfkit";
import { openPicture } from "./open-picture.ts";
import type { PdfDocument } from "./pdf-document.ts";

/** A page of that size [pt] with nothing on it but one picture, from edge to edge, the right way up. */
export function picturePage(
  bytes: Uint8Array,
  size: { readonly width: number; readonly height: number },
): Promise<Buffer> {
  const { width, height } = size;
  const doc = new PDFDocument({ autoFirstPage: false, compress: false, font: null as unknown as string });
  const own = doc as unknown as PdfDocument;
  own.addPage({ size: [width, height], margin: 0 });
  own.image(openPicture(own, bytes), 0, 0, { width, height });
  return new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = [];
    doc.on("data", (chunk) => chunks.push(chunk));
    doc.on("error", reject);
    doc.on("end", () => resolve(Buffer.concat(chunks)));
    doc.end();
  });
}
