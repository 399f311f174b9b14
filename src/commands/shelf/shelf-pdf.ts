import { join, resolve } from "node:path";
import { hasError } from "../../diagnostics/build.ts";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { DEFAULTS } from "../../job/defaults.ts";
import { buildShop } from "../../model/build-text.ts";
import type { DisplayUnits } from "../../model/model.ts";
import { paint } from "../../pdf/paint.ts";
import { imageSizes } from "../../pdf/pictures.ts";
import { layOut, metaOf } from "../../pipeline/lay-out.ts";
import { makeTheme } from "../../theme/make-theme.ts";
import type { Environment } from "../environment.ts";
import { openResources } from "../open-resources.ts";
import type { ShelfEntry } from "./shelf-entry.ts";
import { shelfSheet } from "./shelf-sheet.ts";
import type { ShelfShop } from "./shelf-shop.ts";

/** The index as a PDF, or why there is none. */
export async function shelfPdf(
  entries: readonly ShelfEntry[],
  whose: ShelfShop,
  shown: { readonly units: DisplayUnits; readonly testPressure: number },
  world: Environment,
): Promise<{ readonly pdf?: Uint8Array; readonly diagnostics: readonly Diagnostic[] }> {
  const kit = openResources(world);
  const shop = buildShop(whose.shop);
  const { theme } = makeTheme({ accent: shop.accent, paper: whose.shop?.paper ?? DEFAULTS.paper });
  const images = new Map(whose.logo && shop.logo ? [[shop.logo, whose.logo]] : []);
  const { logo: _, ...bare } = shop;
  const sheet = shelfSheet(entries, { shop: images.size > 0 ? shop : bare, theme, ...shown });
  const { pages, diagnostics } = layOut(sheet, imageSizes(images), kit);
  if (hasError(diagnostics)) return { diagnostics };
  const pdf = await paint(pages, { fonts: kit.fonts, images, meta: metaOf(sheet, kit.version) });
  return { pdf, diagnostics };
}

/** A file, or `shelf.pdf` in a folder that is there or ends in a stroke. */
export function pdfPath(asked: string, { io, cwd }: Environment): string {
  const path = resolve(cwd, asked);
  return /[\\/]$/.test(asked) || io.stat(path)?.kind === "folder" ? join(path, "shelf.pdf") : path;
}
