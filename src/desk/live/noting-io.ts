import type { Io } from "../../io/io.ts";

/** The same files; every path is noted before it is asked for, so also what is missing so far. */
export function notingIo(io: Io, note: (path: string) => void): Io {
  const noted =
    <T extends readonly unknown[], R>(ask: (path: string, ...more: T) => R) =>
    (path: string, ...more: T): R => {
      note(path);
      return ask(path, ...more);
    };
  return {
    ...io,
    stat: noted(io.stat),
    realPath: noted(io.realPath),
    readFile: noted(io.readFile),
    listFolder: noted(io.listFolder),
  };
}
