import { basename, dirname, join, resolve } from "node:path";
import { hasError } from "../../diagnostics/build.ts";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { DEFAULTS } from "../../job/defaults.ts";
import { buildShop } from "../../model/build-text.ts";
import type { DisplayUnits } from "../../model/model.ts";
import { paintPdf } from "../../pdf/paint.ts";
import { imageSizes } from "../../pdf/pictures.ts";
import { layOut, sheetMetadata } from "../../pipeline/lay-out.ts";
import { makeTheme } from "../../theme/make-theme.ts";
import { type Environment, type ExitCode, UsageError } from "../environment.ts";
import { readSheet } from "../issued/issued-sheets.ts";
import { openResources } from "../open-resources.ts";
import { countNoun, openFolder, report, writeOutput } from "../report.ts";
import { isSound, type ShelfEntry } from "./shelf-entry.ts";
import { buildShelfSheet, withholdsPinch } from "./shelf-sheet.ts";
import type { ShelfShop } from "./shelf-shop.ts";
import { loadShelfShop, type ShelfDisplay } from "./shelf-shop.ts";

type Shown = ShelfDisplay & { readonly folder: string };

/** Writes the printed index and reports which jobs it leaves out. */
export async function printShelf(
  typed: string,
  entries: readonly ShelfEntry[],
  { folder, units, testPressure }: Shown,
  environment: Environment,
): Promise<ExitCode> {
  const path = pdfPath(typed, environment);
  if (readSheet(dirname(path), basename(path), environment.io)?.draft === false)
    throw new UsageError(`\`${typed}\` is an issued sheet: name another file for the index`);
  const { pdf, diagnostics } = await renderShelf(
    entries,
    loadShelfShop(folder, environment),
    { units, testPressure },
    environment,
  );
  report(diagnostics, new Map(), environment);
  if (!pdf) return 1;
  openFolder(dirname(path), environment);
  writeOutput(path, pdf, environment);
  const withheld = entries.filter(
    (entry) => withholdsPinch(entry) && (entry.intake?.pinch_area_m2 ?? entry.exhaust?.pinch_area_m2),
  );
  const refused = entries.filter((entry) => !isSound(entry)).length;
  environment.err(
    `${countNoun(entries.length - refused, "job")}${refused > 0 ? `, ${refused} refused and not in the index` : ""}${withheld.length > 0 ? `; pinch held back by ${countNoun(withheld.length, "job")}` : ""}\n`,
  );
  return 0;
}

/** Renders the index as a PDF; without one, the diagnostics give the reason. */
async function renderShelf(
  entries: readonly ShelfEntry[],
  owner: ShelfShop,
  shown: { readonly units: DisplayUnits; readonly testPressure: number },
  environment: Environment,
): Promise<{ readonly pdf?: Uint8Array; readonly diagnostics: readonly Diagnostic[] }> {
  const resources = openResources(environment);
  const shop = buildShop(owner.shop);
  const { theme } = makeTheme({ accent: shop.accent, font: shop.font, paper: owner.shop?.paper ?? DEFAULTS.paper });
  const images = new Map(owner.logo && shop.logo ? [[shop.logo, owner.logo]] : []);
  const { logo: _, ...bare } = shop;
  const sheet = buildShelfSheet(entries, { shop: images.size > 0 ? shop : bare, theme, ...shown });
  const { pages, diagnostics } = layOut(sheet, imageSizes(images), resources);
  if (hasError(diagnostics)) return { diagnostics };
  const pdf = await paintPdf(pages, {
    fonts: resources.fonts.family(theme.font),
    images,
    meta: sheetMetadata(sheet, resources.version),
  });
  return { pdf, diagnostics };
}

/** The typed file, or `shelf.pdf` in a folder that exists or ends in a slash. */
function pdfPath(typed: string, { io, cwd }: Environment): string {
  const path = resolve(cwd, typed);
  return /[\\/]$/.test(typed) || io.stat(path)?.kind === "folder" ? join(path, "shelf.pdf") : path;
}
