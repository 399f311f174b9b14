import { PDFiumLibrary } from "@hyzyla/pdfium";
import { quickPng } from "./encode-png.ts";

/** Draws pages of PDFs for the screen. */
export type Viewer = {
  readonly picture: (pdf: Uint8Array, page: number, dpi: number) => Promise<Uint8Array>;
  readonly close: () => void;
};

/** The renderer of `--png`, loaded once: that is what takes long. */
export async function openViewer(): Promise<Viewer> {
  const library = await PDFiumLibrary.init();
  return {
    picture: async (pdf, page, dpi) => {
      const document = await library.loadDocument(pdf);
      try {
        const drawn = await document.getPage(page).render({ scale: dpi / 72, render: "bitmap" });
        return quickPng(drawn.width, drawn.height, drawn.data);
      } finally {
        document.destroy();
      }
    },
    close: () => library.destroy(),
  };
}
