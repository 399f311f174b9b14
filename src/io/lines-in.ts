import { closeSync, constants, fstatSync, lstatSync, openSync, readSync } from "node:fs";
import { isWorldly } from "./in-words.ts";

const { O_RDONLY, O_NONBLOCK = 0, O_NOFOLLOW = 0 } = constants;
const AT_ONCE = 256 * 1024;
const LINE_END = 10;

/**
 * The lines of a plain file in turn, each with its end; the last one may lack it. A line is there until the next is asked for:
 * a file of megabytes passes through one small buffer. Nothing comes of a file that is not there, or that may not be read.
 */
export function* linesIn(path: string): Generator<Buffer, void, undefined> {
  let file: number | undefined;
  try {
    file = openPlain(path);
    if (file === undefined) return;
    let buffer = Buffer.allocUnsafeSlow(AT_ONCE);
    let from = 0;
    let filled = 0;
    for (;;) {
      const end = buffer.indexOf(LINE_END, from);
      if (end >= 0 && end < filled) {
        yield buffer.subarray(from, end + 1);
        from = end + 1;
        continue;
      }
      if (filled - from === buffer.length) buffer = Buffer.concat([buffer], buffer.length * 2);
      else buffer.copy(buffer, 0, from, filled);
      filled -= from;
      from = 0;
      const got = readSync(file, buffer, filled, buffer.length - filled, null);
      if (got === 0) {
        if (filled > 0) yield buffer.subarray(0, filled);
        return;
      }
      filled += got;
    }
  } catch (failure) {
    if (!isWorldly(failure)) throw failure;
  } finally {
    if (file !== undefined) closeSync(file);
  }
}

/** Looked at before and after, as whoever else reads a file. */
function openPlain(path: string): number | undefined {
  if (!lstatSync(path).isFile()) return undefined;
  const file = openSync(path, O_RDONLY | O_NONBLOCK | O_NOFOLLOW);
  if (fstatSync(file).isFile()) return file;
  closeSync(file);
  return undefined;
}
