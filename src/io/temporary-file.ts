import { closeSync, fchmodSync, fsyncSync, lstatSync, openSync, readdirSync, rmSync, writeSync } from "node:fs";
import { hostname } from "node:os";
import { join } from "node:path";

/** A name like no other's: dot, program, machine, process, number. What a killed run leaves behind is known by it. */
const HOST = hostname().replace(/[^A-Za-z0-9]+/g, "-");
const PATTERN = /^\.headsheet-([A-Za-z0-9-]*)-(\d+)-(\d+)\.tmp$/;
const ATTEMPTS = 1000;
/** No write takes as long as this [ms]. */
const LONG_AGO = 60 * 60 * 1000;

/** Writes bytes into a new file in `folder`, flushed to the disk, and says its path. A failure leaves nothing behind. */
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

/** Does what writes `path`; a failure names it. The disk speaks of the temporary file, or of none; people know the one they asked for. */
export function writing<T>(path: string, write: () => T): T {
  try {
    return write();
  } catch (failure) {
    throw failure instanceof Error && "syscall" in failure ? Object.assign(failure, { path }) : failure;
  }
}

/** A file that nobody else has: created exclusively, under the first number that is free. */
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

/** Takes away what killed runs left half written in a folder. What a run at work holds, and what is not ours, stays. */
export function removeStaleTempFiles(folder: string, now = Date.now()): void {
  for (const name of namesIn(folder)) {
    const match = PATTERN.exec(name);
    if (!match) continue;
    const path = join(folder, name);
    try {
      const found = lstatSync(path);
      if (!found.isFile()) continue;
      if (isForsaken(match[1] as string, Number(match[2]), found.mtimeMs, now)) rmSync(path, { force: true });
    } catch {
      // It went away by itself, or may not be taken: either way it harms nobody.
    }
  }
}

function namesIn(folder: string): readonly string[] {
  try {
    return readdirSync(folder);
  } catch {
    return [];
  }
}

/** Another machine's process, on a shared disk, cannot be asked: there only age tells. */
function isForsaken(host: string, pid: number, writtenAt: number, now: number): boolean {
  if (now - writtenAt > LONG_AGO) return true;
  if (host !== HOST) return false;
  // An earlier process of our own number: in a container it is the same at every start.
  if (pid === process.pid) return writtenAt < performance.timeOrigin;
  return !isAlive(pid);
}

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (failure) {
    return (failure as NodeJS.ErrnoException).code !== "ESRCH";
  }
}
