import { join } from "node:path";
import { sha256 } from "../../io/sha256.ts";
import { isSystemError } from "../../io/system-errors.ts";
import type { Environment } from "../environment.ts";
import { formatSystemError, writeOutput } from "../report.ts";
import type { OutputFile, SheetRecord } from "./build-record.ts";

export type SheetToWrite = { readonly name: string; readonly pdf: Uint8Array };

/** Writes a sheet; on a system error reports it and returns undefined, so that the other sheets are still written. */
export async function writeSheet(
  { name, pdf }: SheetToWrite,
  folder: string,
  { png }: { readonly png: boolean },
  environment: Environment,
): Promise<SheetRecord | undefined> {
  try {
    writeOutput(join(folder, name), pdf, environment);
    const sheet = { name, sum: sha256(pdf) };
    return png ? { ...sheet, pictures: await writePageImages(name, pdf, folder, environment) } : sheet;
  } catch (error) {
    reportSystemError(error, environment);
    return undefined;
  }
}

/** Writes each page as a picture beside its PDF, at 100 dots an inch. */
async function writePageImages(
  sheet: string,
  pdf: Uint8Array,
  folder: string,
  environment: Environment,
): Promise<readonly OutputFile[]> {
  const { pageImages } = await import("../../raster/page-renderer.ts");
  return (await pageImages(pdf, 100)).map((image, index) => {
    const name = sheet.replace(/\.pdf$/, `_${index + 1}.png`);
    writeOutput(join(folder, name), image, environment);
    return { name, sum: sha256(image) };
  });
}

/** Reports an error of the system; rethrows one of ours. */
export function reportSystemError(error: unknown, environment: Environment): void {
  if (!isSystemError(error)) throw error;
  environment.err(formatSystemError(error));
}
