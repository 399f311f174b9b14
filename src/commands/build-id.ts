import { join } from "node:path";
import type { Environment } from "./environment.ts";

/** The mark of the program that is running; undefined where it was not built. */
export function buildOf({ io, home, version }: Environment): string | undefined {
  try {
    return `${version} ${io.readTextFile(join(home, "dist", "build-id"))}`;
  } catch {
    return undefined;
  }
}
