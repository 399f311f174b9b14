import { basename, dirname, join } from "node:path";
import type { FileRead, Io } from "./io.ts";
import { readPlainFile, toFileRead } from "./read-plain-file.ts";
import { inRealFolder } from "./real-folder.ts";

/** Where a path leads, also that of a file which is not there. */
export const resolveLinks = (path: string, io: Io): string =>
  io.realPath(path) ?? join(io.realPath(dirname(path)) ?? dirname(path), basename(path));

/** The same file system, but `path` leads to `real` for good: a link that has come on its way since is not followed. */
export const heldIo = (io: Io, path: string, real: string): Io => ({
  ...io,
  realPath: (asked) => (asked === path ? real : io.realPath(asked)),
  readFile: (asked, largest) => {
    if (asked !== real) return io.readFile(asked, largest);
    return [real, undefined].includes(io.realPath(path)) ? readHeld(real, largest) : { kind: "other" };
  },
});

function readHeld(real: string, largest: number): FileRead {
  try {
    const read = inRealFolder(dirname(real), (at) => readPlainFile(at(basename(real)), largest));
    return read ?? { kind: "other" };
  } catch (failure) {
    return toFileRead(failure);
  }
}
