import { posix } from "node:path";
import type { Io } from "../../src/io/io.ts";

const bytesOf = (content: string | Uint8Array) =>
  typeof content === "string" ? new TextEncoder().encode(content) : content;

/** A small world of files: contents by absolute path; links by absolute path to absolute path; devices by path. */
export function memoryWorld(
  files: Readonly<Record<string, string | Uint8Array>>,
  more: {
    readonly links?: Readonly<Record<string, string>>;
    readonly devices?: readonly string[];
    readonly home?: string;
  } = {},
): Io {
  const folders = new Set<string>(["/"]);
  for (const path of Object.keys(files))
    for (let at = posix.dirname(path); !folders.has(at); at = posix.dirname(at)) folders.add(at);
  const follow = (path: string): string => {
    for (const [from, to] of Object.entries(more.links ?? {}))
      if (path === from || path.startsWith(`${from}/`)) return to + path.slice(from.length);
    return path;
  };
  const content = (path: string) => {
    const found = files[follow(path)];
    if (found === undefined) throw new Error(`no such file: ${path}`);
    return found;
  };
  const stat: Io["stat"] = (path) => {
    const real = follow(path);
    const found = files[real];
    if (found !== undefined) return { kind: "file", bytes: bytesOf(found).length };
    if (folders.has(real)) return { kind: "folder", bytes: 0 };
    return more.devices?.includes(real) ? { kind: "other", bytes: 0 } : undefined;
  };
  return {
    stat,
    realPath: (path) => (stat(path) ? follow(path) : undefined),
    readTextFile: (path) => {
      const found = content(path);
      return typeof found === "string" ? found : new TextDecoder().decode(found);
    },
    readFile: (path, largest) => {
      const found = stat(path);
      if (found?.kind !== "file") return { kind: found === undefined ? "missing" : found.kind };
      const bytes = bytesOf(content(path));
      return bytes.length > largest ? { kind: "too-large", size: bytes.length } : { kind: "read", bytes };
    },
    listFolder: (path) => {
      const inside = [...Object.keys(files), ...Object.keys(more.links ?? {})].filter((one) =>
        one.startsWith(`${path}/`),
      );
      return [...new Set(inside.map((one) => one.slice(path.length + 1).split("/")[0] as string))].toSorted();
    },
    homeFolder: more.home,
  };
}
