import { PDFiumLibrary } from "@hyzyla/pdfium";

/** A picture as pixels, row by row, red, green, blue and opacity of each. */
export type Pixels = { readonly width: number; readonly height: number; readonly data: Uint8Array };

/** Every page of a PDF as pixels, `scale` to a point. */
export async function pagePixels(pdf: Uint8Array, scale: number): Promise<readonly Pixels[]> {
  const library = await PDFiumLibrary.init();
  try {
    const document = await library.loadDocument(pdf);
    try {
      const pages: Pixels[] = [];
      for (const page of document.pages()) {
        const { width, height, data } = await page.render({ scale, render: "bitmap" });
        pages.push({ width, height, data });
      }
      return pages;
    } finally {
      document.destroy();
    }
  } finally {
    library.destroy();
  }
}
