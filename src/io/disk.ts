import { readdirSync, readFileSync, realpathSync, statSync } from "node:fs";
import { homedir } from "node:os";
import type { Io } from "./io.ts";
import { readPlainFile } from "./read-plain-file.ts";

const undefinedOnError = <T>(read: () => T): T | undefined => {
  try {
    return read();
  } catch {
    return undefined;
  }
};

/** The real file system. */
export const disk: Io = {
  stat: (path) =>
    undefinedOnError(() => {
      const found = statSync(path);
      const kind = found.isFile() ? "file" : found.isDirectory() ? "folder" : "other";
      return { kind, bytes: found.size };
    }),
  realPath: (path) => undefinedOnError(() => realpathSync.native(path)),
  readFile: readPlainFile,
  readTextFile: (path) => readFileSync(path, "utf8"),
  listFolder: (path) => (undefinedOnError(() => readdirSync(path)) ?? []).toSorted(),
  regularEntries: (path) => {
    const plain = new Map<string, "file" | "folder">();
    for (const found of undefinedOnError(() => readdirSync(path, { withFileTypes: true })) ?? [])
      if (found.isFile() || found.isDirectory()) plain.set(found.name, found.isFile() ? "file" : "folder");
    return plain;
  },
  homeFolder: undefinedOnError(homedir),
};
