import { disk } from "../../src/io/disk.ts";
import type { Io } from "../../src/io/io.ts";

/** The disk, but for files whose text is another: by absolute path. */
export function overlay(texts: Readonly<Record<string, string>>): Io {
  return {
    ...disk,
    readFile: (path, largest) =>
      texts[path] === undefined ? disk.readFile(path, largest) : { kind: "read", bytes: Buffer.from(texts[path]) },
    readTextFile: (path) => texts[path] ?? disk.readTextFile(path),
    stat: (path) =>
      texts[path] === undefined ? disk.stat(path) : { kind: "file", bytes: Buffer.byteLength(texts[path]) },
    realPath: (path) => (texts[path] === undefined ? disk.realPath(path) : path),
  };
}
