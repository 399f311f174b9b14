import { basename, dirname, join } from "node:path";
import type { FileRead, Io } from "./io.ts";
import { readPlainFile, toFileRead } from "./read-plain-file.ts";
import { inRealFolder } from "./real-folder.ts";

/** Where a path leads, also that of a file which is not there. */
export const resolveLinks = (path: string, io: Io): string =>
  io.realPath(path) ?? join(io.realPath(dirname(path)) ?? dirname(path), basename(path));

/** The same file system with `path` pinned to `real`: a link put on its way since then is not followed. */
export const pinnedIo = (io: Io, path: string, real: string): Io => ({
  ...io,
  realPath: (asked) => (asked === path ? real : io.realPath(asked)),
  readFile: (asked, largest) => {
    if (asked !== real) return io.readFile(asked, largest);
    return [real, undefined].includes(io.realPath(path)) ? readPinned(real, largest) : { kind: "other" };
  },
});

function readPinned(real: string, largest: number): FileRead {
  try {
    const read = inRealFolder(dirname(real), (at) => readPlainFile(at(basename(real)), largest));
    return read ?? { kind: "other" };
  } catch (failure) {
    return toFileRead(failure);
  }
}
