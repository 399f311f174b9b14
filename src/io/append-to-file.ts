import { closeSync, constants, fstatSync, openSync, writeSync } from "node:fs";

/** Opens an existing regular file only: neither follows a link nor blocks on a pipe. */
const FLAGS = constants.O_WRONLY | constants.O_APPEND | (constants.O_NOFOLLOW ?? 0) | (constants.O_NONBLOCK ?? 0);

/** Appends text to an existing file in one write, without flushing it. Throws system errors. */
export function appendToFile(path: string, text: string): void {
  const file = openSync(path, FLAGS);
  try {
    if (fstatSync(file).isFile()) writeSync(file, text);
  } finally {
    closeSync(file);
  }
}
