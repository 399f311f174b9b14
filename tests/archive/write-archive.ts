import { mkdirSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { archive } from "./archive.ts";

/** Writes an archive of so many jobs under a folder. */
export function writeArchive(folder: string, count: number, seed?: number): void {
  for (const [path, text] of Object.entries(archive(count, seed))) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
}
