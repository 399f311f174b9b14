import { closeSync, constants, existsSync, fstatSync, openSync, realpathSync, statSync } from "node:fs";
import { join } from "node:path";

const { O_RDONLY, O_DIRECTORY = 0 } = constants;

/**
 * Runs `act` in a folder whose path has its links resolved; `at` gives the path of a name in it. Returns undefined, without running
 * it, where a link stands on that path now. On Linux, `at` leads through the open folder, so that one put there during `act` is not
 * followed either; other systems offer no such path to Node. Throws system errors.
 */
export function inRealFolder<T>(folder: string, act: (at: (name: string) => string) => T): T | undefined {
  const opened = openSync(folder, O_RDONLY | O_DIRECTORY);
  try {
    if (!isFolderAt(folder, opened)) return undefined;
    const throughHandle = `/proc/self/fd/${opened}`;
    const base = process.platform === "linux" && existsSync(throughHandle) ? throughHandle : folder;
    return act((name) => join(base, name));
  } finally {
    closeSync(opened);
  }
}

/** Whether the open folder is the one at that path, with no link on the way. */
function isFolderAt(folder: string, opened: number): boolean {
  if (realpathSync.native(folder) !== folder) return false;
  const [held, found] = [fstatSync(opened, { bigint: true }), statSync(folder, { bigint: true })];
  return held.ino === found.ino && held.dev === found.dev;
}
