import type { Io } from "../../io/io.ts";

/** The same files, but at one path the text that somebody is still typing. */
export function unsavedIo(io: Io, path: string, text: string): Io {
  const bytes = new TextEncoder().encode(text);
  const real = io.realPath(path) ?? path;
  return {
    ...io,
    readFile: (asked, largest) => {
      if (asked !== real) return io.readFile(asked, largest);
      return bytes.length > largest ? { kind: "too-large", size: bytes.length } : { kind: "read", bytes };
    },
  };
}
