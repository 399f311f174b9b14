import { closeSync, fsyncSync, mkdirSync, openSync, renameSync, rmSync, writeSync } from "node:fs";
import { basename, dirname, join } from "node:path";

/**
 * Writes a file whole or not at all: into a new file beside it, flushed, then renamed over it. Whatever stood there stays
 * until the new one is complete; a failure leaves no half file behind.
 */
export function writeBesideThenRename(path: string, bytes: Uint8Array | string): void {
  const folder = dirname(path);
  mkdirSync(folder, { recursive: true });
  const { file, temporary } = openNew(folder, basename(path));
  try {
    try {
      writeAll(file, typeof bytes === "string" ? new TextEncoder().encode(bytes) : bytes);
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
    renameSync(temporary, path);
  } catch (failure) {
    rmSync(temporary, { force: true });
    throw failure;
  }
}

const ATTEMPTS = 100;

/** A file that nobody else has: created exclusively, under the first name that is free. */
function openNew(folder: string, name: string): { readonly file: number; readonly temporary: string } {
  for (let attempt = 0; ; attempt++) {
    const temporary = join(folder, `.${name}.${process.pid}-${attempt}.tmp`);
    try {
      return { file: openSync(temporary, "wx", 0o644), temporary };
    } catch (failure) {
      const taken = (failure as NodeJS.ErrnoException).code === "EEXIST";
      if (!taken || attempt >= ATTEMPTS) throw failure;
    }
  }
}

function writeAll(file: number, bytes: Uint8Array): void {
  let written = 0;
  while (written < bytes.length) written += writeSync(file, bytes, written);
}
