import { closeSync, fsyncSync, lstatSync, mkdirSync, openSync, renameSync, rmSync } from "node:fs";
import { dirname } from "node:path";
import { writeTemporary, writing } from "./temporary-file.ts";

/**
 * Writes a file whole or not at all: into a new file beside it, flushed, then renamed over it. Whatever stood there stays
 * until the new one is complete, and hands on its rights; a failure leaves no half file behind. Where a link stands, the
 * link is replaced and what it leads to is left alone: nothing is written outside the folder.
 */
export function writeAtomically(path: string, contents: string | Uint8Array): void {
  const folder = dirname(path);
  const bytes = typeof contents === "string" ? new TextEncoder().encode(contents) : contents;
  writing(path, () => {
    mkdirSync(folder, { recursive: true });
    const temporary = writeTemporary(folder, bytes, rightsOf(path));
    try {
      renameSync(temporary, path);
    } catch (failure) {
      rmSync(temporary, { force: true });
      throw failure;
    }
  });
  flushFolder(folder);
}

function rightsOf(path: string): number | undefined {
  const found = lstatSync(path, { throwIfNoEntry: false });
  return found?.isFile() ? found.mode & 0o777 : undefined;
}

/** So that the new name outlasts a power cut. Not every system lets a folder be flushed; the file itself is safe by now. */
function flushFolder(folder: string): void {
  try {
    const file = openSync(folder, "r");
    try {
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
  } catch {
    // Nothing is lost but the promise.
  }
}
