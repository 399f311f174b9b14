import { closeSync, fchmodSync, fsyncSync, lstatSync, openSync, readdirSync, rmSync, writeSync } from "node:fs";
import { join } from "node:path";
import { HOST, isAbandoned } from "./abandoned.ts";

/** Names of temporary files hold host, process and number, so that those of killed runs can be recognised. */
const PATTERN = /^\.headsheet-([A-Za-z0-9-]*)-(\d+)-(\d+)\.tmp$/;
const ATTEMPTS = 1000;

/** Writes bytes into a new, flushed file in `folder` and returns its path. Leaves nothing behind on failure. */
export function writeTemporary(folder: string, bytes: Uint8Array, rights?: number): string {
  const { file, path } = openNew(folder);
  try {
    try {
      if (rights !== undefined) fchmodSync(file, rights);
      for (let written = 0; written < bytes.length; ) written += writeSync(file, bytes, written);
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
    return path;
  } catch (failure) {
    rmSync(path, { force: true });
    throw failure;
  }
}

/** Runs `write` and replaces the path of a system error by `path`: users do not know the temporary file. */
export function withErrorPath<T>(path: string, write: () => T): T {
  try {
    return write();
  } catch (failure) {
    throw failure instanceof Error && "syscall" in failure ? Object.assign(failure, { path }) : failure;
  }
}

/** Creates a file exclusively, under the first free number. */
function openNew(folder: string): { readonly file: number; readonly path: string } {
  for (let number = 0; ; number++) {
    const path = join(folder, `.headsheet-${HOST}-${process.pid}-${number}.tmp`);
    try {
      return { file: openSync(path, "wx", 0o644), path };
    } catch (failure) {
      if ((failure as NodeJS.ErrnoException).code !== "EEXIST" || number >= ATTEMPTS) throw failure;
    }
  }
}

/** Removes temporary files of killed runs from a folder; keeps those of running processes and files of others. */
export function removeStaleTempFiles(folder: string, now = Date.now()): void {
  for (const name of namesInFolder(folder)) {
    const match = PATTERN.exec(name);
    if (!match) continue;
    const path = join(folder, name);
    try {
      const found = lstatSync(path);
      if (!found.isFile()) continue;
      if (isAbandoned(match[1] as string, Number(match[2]), found.mtimeMs, now)) rmSync(path, { force: true });
    } catch {
      // Already removed, or not permitted: harmless either way.
    }
  }
}

function namesInFolder(folder: string): readonly string[] {
  try {
    return readdirSync(folder);
  } catch {
    return [];
  }
}
