import type { Io } from "./io.ts";

/** The same files, but one of them with another text; `path` without links. */
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
