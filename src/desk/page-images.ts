import { PDFiumLibrary } from "@hyzyla/pdfium";
import { encode } from "fast-png";

/** Every page of a PDF as a PNG picture at `dpi` dots an inch. */
export async function pageImages(pdf: Uint8Array, dpi: number): Promise<Uint8Array[]> {
  const library = await PDFiumLibrary.init();
  try {
    const document = await library.loadDocument(pdf);
    try {
      const images: Uint8Array[] = [];
      for (const page of document.pages()) {
        const bitmap = await page.render({ scale: dpi / 72, render: "bitmap" });
        images.push(encode({ width: bitmap.width, height: bitmap.height, channels: 4, depth: 8, data: bitmap.data }));
      }
      return images;
    } finally {
      document.destroy();
    }
  } finally {
    library.destroy();
  }
}
