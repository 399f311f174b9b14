import { accessSync, constants, linkSync, lstatSync, renameSync, writeFileSync } from "node:fs";
import { basename, dirname } from "node:path";
import { createFile, isWithoutLinks } from "./create-file.ts";
import { readPlainFile } from "./read-plain-file.ts";
import { inRealFolder } from "./real-folder.ts";
import {
  listAbandoned,
  removeIfPermitted,
  removeStaleTempFiles,
  underFreeName,
  withErrorPath,
  writeTemporary,
} from "./temporary-file.ts";
import { flushFolder } from "./write-atomically.ts";

/** Result of saving. `otherVersion` names the file that keeps what another program saved in the same moment. */
type SaveOver =
  | { readonly kind: "saved"; readonly otherVersion?: string }
  /** The file is no longer as it was read: nothing was saved. */
  | { readonly kind: "changed" }
  | { readonly kind: "refused"; readonly why: string };

/** Time after which an editor that had opened the replaced file has written to it [ms]. */
const SETTLE = 30;

/**
 * Saves a text over the bytes `before` that were read from a file; without `before`, only where there is no file. `path` has its links
 * resolved, and none that has come since is followed. The standing file is linked aside, the new one renamed into its place, and then
 * the other compared with `before`: one that differs stays. Throws system errors.
 */
export function saveOver(path: string, before: Uint8Array | undefined, text: string): SaveOver {
  const linked = { kind: "refused", why: "a link stands where the folder of the job was: nothing was saved" } as const;
  return withErrorPath(path, () => {
    const done = inRealFolder(dirname(path), (at): SaveOver => {
      removeStaleTempFiles(at("."));
      if (before) return replaceFile(at, basename(path), before, text);
      return { kind: createFile(at(basename(path)), text) ? "saved" : "changed" };
    });
    return done ?? linked;
  });
}

function replaceFile(at: (name: string) => string, name: string, before: Uint8Array, text: string): SaveOver {
  const path = at(name);
  const found = lstatSync(path, { throwIfNoEntry: false });
  if (!found?.isFile()) return { kind: "changed" };
  if (isReadOnly(path, found.mode)) return { kind: "refused", why: "the file is read-only: nothing was saved" };
  const sides = { prefix: `${name}.other-version`, suffix: "" };
  // What a killed save put aside is a version of the job: it may go only where the job itself is the same.
  for (const side of listAbandoned(at("."), sides, "ctimeMs")) if (holds(side, before)) removeIfPermitted(side);

  const temporary = writeTemporary(at("."), new TextEncoder().encode(text), found);
  try {
    const { name: otherVersion, made } = underFreeName(sides, (free) => linkOrCopy(path, at(free), found.mode));
    const side = at(otherVersion);
    let replaced = false;
    try {
      if (holds(side, before) && (made === "copy" || lstatSync(path).ino === lstatSync(side).ino)) {
        if (made === "link") exchange(temporary, path, side);
        else renameSync(temporary, path);
        replaced = true;
        flushFolder(at("."));
        Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, SETTLE);
      }
    } finally {
      if (holds(side, before) || isEqualFile(side, path)) removeIfPermitted(side);
    }
    const kept = lstatSync(side, { throwIfNoEntry: false }) !== undefined;
    return replaced ? { kind: "saved", ...(kept ? { otherVersion } : {}) } : { kind: "changed" };
  } catch (failure) {
    if ((failure as NodeJS.ErrnoException).code === "ENOENT") return { kind: "changed" };
    throw failure;
  } finally {
    removeIfPermitted(temporary);
  }
}

/**
 * Renames the new file over one that has two names. Renaming one of them to the other waits for a rename under way and does nothing
 * else (POSIX), but takes aside what has come to the path meanwhile. Only what comes between the two calls is lost.
 */
function exchange(temporary: string, path: string, side: string): void {
  renameSync(path, side);
  try {
    renameSync(temporary, path);
  } catch (failure) {
    if (!lstatSync(path, { throwIfNoEntry: false })) renameSync(side, path);
    throw failure;
  }
}

/** Also where the user may write to everything, as an administrator may. */
function isReadOnly(path: string, mode: number): boolean {
  if ((mode & 0o222) === 0) return true;
  try {
    accessSync(path, constants.W_OK);
    return false;
  } catch {
    return true;
  }
}

/** On disks without hard links, such as memory sticks, a copy: it lacks what is written in place after it was made. */
function linkOrCopy(path: string, side: string, mode: number): "link" | "copy" {
  try {
    linkSync(path, side);
    return "link";
  } catch (failure) {
    if (!isWithoutLinks(failure)) throw failure;
    writeFileSync(side, readBytes(path) ?? "", { flag: "wx", mode, flush: true });
    return "copy";
  }
}

const readBytes = (path: string, largest = Number.MAX_SAFE_INTEGER): Uint8Array | undefined => {
  const read = readPlainFile(path, largest);
  return read.kind === "read" ? read.bytes : undefined;
};

const holds = (path: string, bytes: Uint8Array): boolean => {
  const found = readBytes(path, bytes.length);
  return found !== undefined && Buffer.compare(found, bytes) === 0;
};

const isEqualFile = (one: string, other: string): boolean => {
  const bytes = readBytes(other);
  return bytes !== undefined && holds(one, bytes);
};
