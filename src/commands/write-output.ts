import { writeAtomically } from "../io/write-atomically.ts";
import type { Environment } from "./environment.ts";
import { shortest } from "./find-jobs.ts";

/** Writes a file, and prints its path. */
export function writeOutput(path: string, contents: string | Uint8Array, world: Environment): void {
  writeAtomically(path, contents);
  world.out(`${shortest(world.cwd, path)}\n`);
}
