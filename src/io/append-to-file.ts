import { closeSync, constants, fstatSync, openSync, writeSync } from "node:fs";

/** A plain file that is there, and no link to one elsewhere; a pipe in its place is not waited for. */
const THAT_IS_THERE =
  constants.O_WRONLY | constants.O_APPEND | (constants.O_NOFOLLOW ?? 0) | (constants.O_NONBLOCK ?? 0);

/** Adds text at the end of a file that this program wrote, in one piece; the disk's failure is thrown. Nothing is flushed. */
export function appendToFile(path: string, text: string): void {
  const file = openSync(path, THAT_IS_THERE);
  try {
    if (fstatSync(file).isFile()) writeSync(file, text);
  } finally {
    closeSync(file);
  }
}
