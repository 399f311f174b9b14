import { writeBesideThenRename } from "../io/write-atomically.ts";
import { shortest } from "./find-jobs.ts";
import type { World } from "./world.ts";

/** Writes a file, and prints its path. */
export function writeOutput(path: string, contents: string | Uint8Array, world: World): void {
  writeBesideThenRename(path, contents);
  world.out(`${shortest(world.cwd, path)}\n`);
}
