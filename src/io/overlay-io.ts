import type { Io } from "./io.ts";

/** The same file system with another text for one file; `path` has its links resolved. */
export function overlayIo(io: Io, path: string, text: string): Io {
  const bytes = new TextEncoder().encode(text);
  return {
    ...io,
    readFile: (asked, largest) => {
      if (asked !== path) return io.readFile(asked, largest);
      return bytes.length > largest ? { kind: "too-large", size: bytes.length } : { kind: "read", bytes };
    },
  };
}
