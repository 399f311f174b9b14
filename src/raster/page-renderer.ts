import { PDFiumLibrary } from "@hyzyla/pdfium";
import { encodeFastPng, encodePng, type Pixels } from "./encode-png.ts";

/** Renders every page of a PDF, `scale` pixels to a point. */
export async function rasterizePages(pdf: Uint8Array, scale: number): Promise<readonly Pixels[]> {
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

/** Every page of a PDF as a PNG picture at `dpi` dots an inch. */
export async function pageImages(pdf: Uint8Array, dpi: number): Promise<Uint8Array[]> {
  return (await rasterizePages(pdf, dpi / 72)).map(encodePng);
}

/** Renders single pages for the screen; keeps PDFium loaded, since loading it takes longest. */
export type PageRenderer = {
  readonly renderPng: (pdf: Uint8Array, page: number, dpi: number) => Promise<Uint8Array>;
  readonly close: () => void;
};

export async function openPageRenderer(): Promise<PageRenderer> {
  const library = await PDFiumLibrary.init();
  return {
    renderPng: async (pdf, page, dpi) => {
      const document = await library.loadDocument(pdf);
      try {
        const drawn = await document.getPage(page).render({ scale: dpi / 72, render: "bitmap" });
        return encodeFastPng(drawn.width, drawn.height, drawn.data);
      } finally {
        document.destroy();
      }
    },
    close: () => library.destroy(),
  };
}
