import { closeSync, constants, fstatSync, fsyncSync, ftruncateSync, openSync, readSync, writeSync } from "node:fs";
import { dirname } from "node:path";
import { withErrorPath } from "./temporary-file.ts";
import { flushFolder } from "./write-atomically.ts";

const { O_RDWR, O_APPEND, O_CREAT, O_NOFOLLOW = 0, O_NONBLOCK = 0 } = constants;
const FLAGS = O_RDWR | O_APPEND | O_CREAT | O_NOFOLLOW | O_NONBLOCK;

/**
 * Appends whole lines to a file, created if missing, in one write, and flushes it. What a full disk took only in part is taken
 * back. A last line without its end is ended first. Throws system errors; the caller holds a lock.
 */
export function appendLines(path: string, lines: string): void {
  withErrorPath(path, () => {
    const file = openSync(path, FLAGS, 0o644);
    try {
      const found = fstatSync(file);
      if (!found.isFile()) throw systemError("EEXIST");
      const bytes = Buffer.from(`${endsWithLine(file, found.size) ? "" : "\n"}${lines}`);
      try {
        if (writeSync(file, bytes) < bytes.length) throw systemError("ENOSPC");
        fsyncSync(file);
      } catch (failure) {
        ftruncateSync(file, found.size);
        throw failure;
      }
    } finally {
      closeSync(file);
    }
  });
  flushFolder(dirname(path));
}

function endsWithLine(file: number, size: number): boolean {
  const last = Buffer.alloc(1);
  return size === 0 || readSync(file, last, 0, 1, size - 1) === 0 || last[0] === 0x0a;
}

const systemError = (code: string) => Object.assign(new Error(code), { syscall: "write", code });
