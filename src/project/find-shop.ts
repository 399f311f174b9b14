import { dirname, join } from "node:path";
import type { Io } from "../io/io.ts";
import { FOLDERS_UP } from "./limits.ts";

/** Finds the nearest shop.yaml, upwards from the job's folder, not beyond the home folder or a repository's root. */
export function findShop(folder: string, io: Io): string | undefined {
  let here = folder;
  for (let up = 0; up <= FOLDERS_UP; up++) {
    const candidate = join(here, "shop.yaml");
    if (io.stat(candidate)?.kind === "file") return candidate;
    const above = dirname(here);
    if (above === here || here === io.homeFolder || io.stat(join(here, ".git")) !== undefined) return undefined;
    here = above;
  }
  return undefined;
}
