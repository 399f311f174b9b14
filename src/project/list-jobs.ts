import { join, sep } from "node:path";
import type { Io } from "../io/io.ts";
import { isInside } from "./confine.ts";
import { FILE_LIMITS } from "./limits.ts";
import { decodeLatin1 } from "./load-file.ts";

/** Folders that hold no jobs of a shop. */
const SKIPPED = new Set(["node_modules", "dist", "out"]);
const DEPTH = 8;
/** Matched on Latin-1 decoded bytes, in which a UTF-8 byte order mark is three characters. */
const TOP_LEVEL_KEY = /^(?:\xef\xbb\xbf)?(?:job|product)[ \t]*:/m;

/**
 * Lists every `*.yaml` under a folder with `job` or `product` at its top level, in order of path. Unreadable files are listed
 * too, so that reading them reports why. Links that leave the folder are not followed.
 */
export const listJobs = (folder: string, io: Io): readonly string[] =>
  listYaml(folder, io).flatMap(({ path, real }) => (isJob(real, io) ? [path] : []));

/** The path of a file as found, and with links resolved. */
type FoundFile = { readonly path: string; readonly real: string };

/** Lists every `*.yaml` under a folder in the same order as `listJobs`, without reading it. */
export function listYaml(folder: string, io: Io): readonly FoundFile[] {
  const root = io.realPath(folder);
  if (root === undefined) return [];
  const seen = new Set<string>();
  const walk = (path: string, real: string, depth: number): FoundFile[] => {
    if (seen.has(real) || depth > DEPTH) return [];
    seen.add(real);
    const plain = io.regularEntries?.(path);
    const [below, realBelow] = [join(path, sep), join(real, sep)];
    return io.listFolder(path).flatMap((name): FoundFile[] => {
      if (name.startsWith(".") || SKIPPED.has(name)) return [];
      const inner = below + name;
      const kind = plain?.get(name);
      const innerReal = kind ? realBelow + name : io.realPath(inner);
      if (innerReal === undefined || !(kind || isInside(root, innerReal))) return [];
      if ((kind ?? io.stat(innerReal)?.kind) === "folder") return walk(inner, innerReal, depth + 1);
      return name.toLowerCase().endsWith(".yaml") ? [{ path: inner, real: innerReal }] : [];
    });
  };
  return walk(folder, root, 0);
}

/** Whether a file is a job, or cannot be read. */
export function isJob(real: string, io: Io): boolean {
  const read = io.readFile(real, FILE_LIMITS.yaml);
  if (read.kind === "read") return TOP_LEVEL_KEY.test(decodeLatin1(read.bytes));
  return read.kind === "too-large" || read.kind === "unreadable";
}
