import type { Diagnostic, Span } from "../diagnostics/diagnostic.ts";
import { drawnSizes, type Page } from "../layout/page.ts";
import type { ImageSize } from "../pdf/pictures.ts";
import type { Downscale } from "../raster/fit-photo.ts";

/**
 * Downscales the photos on the pages to the resolution that print shows, without what is cropped off; warns where one is too
 * coarse or cannot be downscaled.
 */
export async function fitPhotos(
  pages: readonly Page[],
  sizes: ReadonlyMap<string, ImageSize>,
  photos: ReadonlyMap<string, Uint8Array>,
  downscale: Downscale,
  spanOf: (photo: string) => Span | undefined,
) {
  const fitted = new Map<string, Uint8Array>();
  const cropped = new Set<string>();
  const diagnostics: Diagnostic[] = [];
  for (const [name, drawn] of drawnSizes(pages)) {
    const [bytes, pixels] = [photos.get(name), sizes.get(name)];
    if (bytes === undefined || pixels === undefined) continue;
    const { fitPhoto } = await import("../raster/fit-photo.ts");
    const photo = await fitPhoto(name, bytes, pixels, drawn, downscale);
    fitted.set(name, photo.bytes);
    if (photo.cropped) cropped.add(name);
    const at = spanOf(name);
    if (photo.remark) diagnostics.push({ severity: "warning", ...(at ? { at } : {}), ...photo.remark });
  }
  return { fitted, diagnostics, pages: cropped.size === 0 ? pages : pages.map((page) => showWhole(page, cropped)) };
}

/** The page with pictures that hold no more than is seen of them. */
const showWhole = ({ items, ...page }: Page, cropped: ReadonlySet<string>): Page => ({
  ...page,
  items: items.map((item) => {
    if (item.kind !== "image" || !cropped.has(item.image)) return item;
    const { whole: _, ...seen } = item;
    return seen;
  }),
});
