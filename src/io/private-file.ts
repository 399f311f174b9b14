import { closeSync, fchmodSync, fstatSync, openSync, readFileSync, writeFileSync } from "node:fs";
import { homedir } from "node:os";
import { dirname, join } from "node:path";
import { makeFolder } from "./make-folder.ts";
import { isSystemError } from "./system-errors.ts";

/** Folder for what the program keeps between its runs for this user, by the conventions of the system. */
export function stateFolder({ env, platform }: { env: NodeJS.ProcessEnv; platform: string } = process): string {
  if (env["XDG_STATE_HOME"]?.startsWith("/")) return join(env["XDG_STATE_HOME"], "headsheet");
  if (platform === "win32") return join(env["LOCALAPPDATA"] ?? join(homedir(), "AppData", "Local"), "headsheet");
  if (platform === "darwin") return join(homedir(), "Library", "Application Support", "headsheet");
  return join(homedir(), ".local", "state", "headsheet");
}

/** Text of a file that only its user may read or write; undefined where there is none, or where others may. */
export function readPrivateFile(path: string): string | undefined {
  try {
    const file = openSync(path, "r");
    try {
      const { mode, uid } = fstatSync(file);
      const isOpen = process.getuid !== undefined && ((mode & 0o077) !== 0 || uid !== process.getuid());
      return isOpen ? undefined : readFileSync(file, "utf8");
    } finally {
      closeSync(file);
    }
  } catch (error) {
    if (isSystemError(error)) return undefined;
    throw error;
  }
}

/** Writes a file that only its user may read; returns whether it could be written. */
export function writePrivateFile(path: string, text: string): boolean {
  try {
    makeFolder(dirname(path));
    const file = openSync(path, "w", 0o600);
    try {
      fchmodSync(file, 0o600);
      writeFileSync(file, text);
    } finally {
      closeSync(file);
    }
    return true;
  } catch (error) {
    if (isSystemError(error)) return false;
    throw error;
  }
}
