import { closeSync, fsyncSync, lstatSync, openSync, renameSync, rmSync, type Stats } from "node:fs";
import { dirname } from "node:path";
import { makeFolder } from "./make-folder.ts";
import { withErrorPath, writeTemporary } from "./temporary-file.ts";

/**
 * Writes a file whole or not at all: into a temporary file beside it, flushed, then renamed over it, with mode and
 * owner of the old one. A link at the path is replaced, never followed, so that nothing is written outside the folder.
 */
export function writeAtomically(path: string, contents: string | Uint8Array): void {
  const folder = dirname(path);
  const bytes = typeof contents === "string" ? new TextEncoder().encode(contents) : contents;
  withErrorPath(path, () => {
    makeFolder(folder);
    const temporary = writeTemporary(folder, bytes, plainFileAt(path));
    try {
      renameSync(temporary, path);
    } catch (failure) {
      rmSync(temporary, { force: true });
      throw failure;
    }
  });
  flushFolder(folder);
}

/** The plain file at the path, if any. A device or a pipe is no file to be replaced: renamed over, `/dev/null` would be gone. */
function plainFileAt(path: string): Stats | undefined {
  const found = lstatSync(path, { throwIfNoEntry: false });
  if (found === undefined || found.isSymbolicLink() || found.isDirectory()) return undefined;
  if (!found.isFile()) throw Object.assign(new Error("EEXIST"), { syscall: "open", code: "EEXIST", path });
  return found;
}

/** Flushes the folder so that the rename survives a power cut. Not every system supports it; the file itself is safe already. */
export function flushFolder(folder: string): void {
  try {
    const file = openSync(folder, "r");
    try {
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
  } catch {
    // Only the guarantee against a power cut is lost.
  }
}
