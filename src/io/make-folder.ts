import { mkdirSync, statSync } from "node:fs";
import { dirname } from "node:path";

/**
 * Creates a folder with its parents. Node's own `recursive` never ends where a folder exists in which none can be made, as in
 * /proc. Throws system errors.
 */
export function makeFolder(path: string): void {
  if (isFolder(path)) return;
  const above = dirname(path);
  if (above !== path) makeFolder(above);
  try {
    mkdirSync(path);
  } catch (failure) {
    if ((failure as NodeJS.ErrnoException).code !== "EEXIST") throw failure;
    // Another run was faster; or something stands there that is no folder.
    if (!isFolder(path)) throw Object.assign(failure as Error, { code: "ENOTDIR" });
  }
}

function isFolder(path: string): boolean {
  try {
    return statSync(path).isDirectory();
  } catch {
    return false;
  }
}
