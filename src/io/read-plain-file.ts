import { closeSync, constants, fstatSync, lstatSync, openSync, readSync } from "node:fs";
import type { FileRead } from "./io.ts";

/** Windows lacks both flags: opening cannot block on a pipe there, and creating links needs special rights. */
const { O_RDONLY, O_NONBLOCK = 0, O_NOFOLLOW = 0 } = constants;

/** Reads a whole regular file. Checks its kind before opening, because opening some devices has effects, and again on the descriptor. */
export function readPlainFile(path: string, largest: number): FileRead {
  let file: number | undefined;
  try {
    const standing = kindOf(lstatSync(path));
    if (standing !== "file") return { kind: standing };
    file = openSync(path, O_RDONLY | O_NONBLOCK | O_NOFOLLOW);
    const opened = fstatSync(file);
    const kind = kindOf(opened);
    if (kind !== "file") return { kind };
    if (opened.size > largest) return { kind: "too-large", size: opened.size };
    const bytes = readUpTo(file, largest + 1, opened.size);
    return bytes.length > largest ? { kind: "too-large", size: bytes.length } : { kind: "read", bytes };
  } catch (failure) {
    return toFileRead(failure);
  } finally {
    if (file !== undefined) closeSync(file);
  }
}

const kindOf = (found: { isFile(): boolean; isDirectory(): boolean }): "file" | "folder" | "other" =>
  found.isFile() ? "file" : found.isDirectory() ? "folder" : "other";

/** Reads to the end but at most `most` bytes, because a file may grow meanwhile and some report a size of 0. Stops early at exactly `expected` bytes. */
function readUpTo(file: number, most: number, expected: number): Uint8Array {
  let buffer = Buffer.allocUnsafe(Math.min(most, expected > 0 ? expected + 1 : 4096));
  let filled = 0;
  for (;;) {
    const got = readSync(file, buffer, filled, buffer.length - filled, null);
    filled += got;
    if (got === 0 || filled === most || (filled === expected && expected > 0)) return buffer.subarray(0, filled);
    if (filled === buffer.length) buffer = Buffer.concat([buffer], Math.min(most, buffer.length * 2));
  }
}

/** The result that a system error stands for. Throws any other error. */
export function toFileRead(failure: unknown): FileRead {
  const { code, syscall } = failure as NodeJS.ErrnoException;
  if (syscall === undefined) throw failure;
  if (code === "ENOENT" || code === "ENOTDIR") return { kind: "missing" };
  if (code === "ELOOP" || code === "ENXIO") return { kind: "other" };
  if (code === "EACCES" || code === "EPERM") return { kind: "unreadable", why: "there is no permission to read it" };
  return { kind: "unreadable", why: `the disk says ${code}` };
}
