import { join } from "node:path";
import type { World } from "./environment.ts";

/** The mark of the program that is running; undefined where it was not built. */
export function buildOf({ io, home, version }: World): string | undefined {
  try {
    return `${version} ${io.readTextFile(join(home, "dist", "build-id"))}`;
  } catch {
    return undefined;
  }
}
