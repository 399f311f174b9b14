import PDFDocument from "pdfkit";
import { pngHeader } from "../photos/png-header.ts";

export type ImageSize = { readonly width: number; readonly height: number };

/** Pixels of each picture as it will stand on the page: a photo turned by its camera is measured turned. */
export function imageSizes(images: ReadonlyMap<string, Uint8Array>): ReadonlyMap<string, ImageSize> {
  if (images.size === 0) return new Map();
  const document = new PDFDocument({ autoFirstPage: false, font: null as unknown as string }) as unknown as {
    openImage: (bytes: Uint8Array) => ImageSize & { orientation?: number };
  };
  return new Map(
    [...images].map(([name, bytes]) => {
      const png = pngHeader(bytes);
      if (png && "width" in png) return [name, { width: png.width, height: png.height }];
      const { width, height, orientation = 1 } = document.openImage(bytes);
      return [name, orientation > 4 ? { width: height, height: width } : { width, height }];
    }),
  );
}
