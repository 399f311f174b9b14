import { asPng } from "../raster/encode-png.ts";
import { pagePixels } from "../raster/page-pixels.ts";

/** Every page of a PDF as a PNG picture at `dpi` dots an inch. */
export async function pageImages(pdf: Uint8Array, dpi: number): Promise<Uint8Array[]> {
  return (await pagePixels(pdf, dpi / 72)).map(asPng);
}
