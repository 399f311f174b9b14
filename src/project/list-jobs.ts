import { join, sep } from "node:path";
import type { Io } from "../io/io.ts";
import { isInside } from "./confine.ts";
import { FILE_LIMITS } from "./limits.ts";
import { inLatin } from "./load-file.ts";

/** Folders that hold no jobs of a shop. */
const SKIPPED = new Set(["node_modules", "dist", "out"]);
const DEPTH = 8;
/** In bytes as they are: a byte order mark in UTF-8 is three of them. */
const TOP_LEVEL_KEY = /^(?:\xef\xbb\xbf)?(?:job|product)[ \t]*:/m;

/**
 * Every `*.yaml` under a folder that has `job` or `product` at its top level, in order of path. What cannot be looked into is
 * listed too, so that whoever reads it says why. Links that leave the folder are not followed.
 */
export const listJobs = (folder: string, io: Io): readonly string[] =>
  listYaml(folder, io).flatMap(({ path, real }) => (isJob(real, io) ? [path] : []));

/** A file as it was come by, and without links. */
type Listed = { readonly path: string; readonly real: string };

/** Every `*.yaml` under a folder, as `listJobs` goes, whatever is in it: to tell, each has to be read. */
export function listYaml(folder: string, io: Io): readonly Listed[] {
  const root = io.realPath(folder);
  if (root === undefined) return [];
  const seen = new Set<string>();
  const walk = (path: string, real: string, depth: number): Listed[] => {
    if (seen.has(real) || depth > DEPTH) return [];
    seen.add(real);
    const plain = io.regularEntries?.(path);
    const [below, realBelow] = [join(path, sep), join(real, sep)];
    return io.listFolder(path).flatMap((name): Listed[] => {
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

/** Whether a file is a job, or cannot be looked into. */
export function isJob(real: string, io: Io): boolean {
  const read = io.readFile(real, FILE_LIMITS.yaml);
  if (read.kind === "read") return TOP_LEVEL_KEY.test(inLatin(read.bytes));
  return read.kind === "too-large" || read.kind === "unreadable";
}
