import {
  closeSync,
  fchmodSync,
  fchownSync,
  fsyncSync,
  lstatSync,
  openSync,
  readdirSync,
  rmSync,
  type Stats,
  writeSync,
} from "node:fs";
import { join } from "node:path";
import { HOST, isAbandoned } from "./abandoned.ts";

/** Names made here hold host, process and number, so that those of killed runs can be recognised. */
const OWNER = /^-([A-Za-z0-9-]*)-(\d+)-(\d+)$/;
const TEMPORARY = { prefix: ".headsheet", suffix: ".tmp" };
const ATTEMPTS = 1000;

/** What the names of some files begin and end with. */
type NamePattern = { readonly prefix: string; readonly suffix: string };

/**
 * Writes bytes into a new, flushed file in `folder` and returns its path; mode, owner and group are those of the file that it
 * replaces, if any. Leaves nothing behind on failure.
 */
export function writeTemporary(folder: string, bytes: Uint8Array, replaced?: Stats): string {
  const { made: file, name } = underFreeName(TEMPORARY, (free) => openSync(join(folder, free), "wx", 0o644));
  const path = join(folder, name);
  try {
    try {
      if (replaced) keepRights(file, replaced);
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

/** Only an administrator may give a file away: otherwise it belongs to whoever writes it. */
function keepRights(file: number, { uid, gid, mode }: Stats): void {
  for (const [user, group] of [
    [-1, gid],
    [uid, -1],
  ] as const)
    try {
      fchownSync(file, user, group);
    } catch {
      // Not permitted, or not known on this system.
    }
  fchmodSync(file, mode & 0o777);
}

/** Runs `create`, which fails with EEXIST where the name is taken, under the first free number. */
export function underFreeName<T>(
  { prefix, suffix }: NamePattern,
  create: (name: string) => T,
): { readonly name: string; readonly made: T } {
  for (let number = 0; ; number++) {
    const name = `${prefix}-${HOST}-${process.pid}-${number}${suffix}`;
    try {
      return { name, made: create(name) };
    } catch (failure) {
      if ((failure as NodeJS.ErrnoException).code !== "EEXIST" || number >= ATTEMPTS) throw failure;
    }
  }
}

/** Removes temporary files of killed runs from a folder; keeps those of running processes and files of others. */
export function removeStaleTempFiles(folder: string, now = Date.now()): void {
  for (const path of listAbandoned(folder, TEMPORARY, "mtimeMs", now)) removeIfPermitted(path);
}

/** Removes a file; failing that, it stays. */
export function removeIfPermitted(path: string): void {
  try {
    rmSync(path, { force: true });
  } catch {
    // Not permitted: harmless.
  }
}

/** Paths of plain files with names of such a pattern whose process is gone. `time` is that of their creation. */
export function listAbandoned(
  folder: string,
  { prefix, suffix }: NamePattern,
  time: "mtimeMs" | "ctimeMs",
  now = Date.now(),
): readonly string[] {
  return namesInFolder(folder).flatMap((name) => {
    if (!name.startsWith(prefix) || !name.endsWith(suffix)) return [];
    const match = OWNER.exec(name.slice(prefix.length, name.length - suffix.length));
    const path = join(folder, name);
    const found = match && lstatSync(path, { throwIfNoEntry: false });
    if (!found?.isFile()) return [];
    return isAbandoned(match![1] as string, Number(match![2]), found[time], now) ? [path] : [];
  });
}

function namesInFolder(folder: string): readonly string[] {
  try {
    return readdirSync(folder);
  } catch {
    return [];
  }
}
