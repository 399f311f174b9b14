import { join, sep } from "node:path";
import type { Io } from "../io/io.ts";
import { isInside } from "./confine.ts";
import { FILE_LIMITS } from "./limits.ts";
import { decodeLatin1 } from "./load-file.ts";

/** Folders that hold no jobs of a shop. */
const SKIPPED = new Set(["node_modules", "dist", "out"]);
const DEPTH = 8;
/** Matched on Latin-1 decoded bytes, in which a UTF-8 byte order mark is three characters. */
const JOB_OR_PRODUCT_KEY = /^(?:\xef\xbb\xbf)?(?:job|product)[ \t]*:/m;

/**
 * Lists every `*.yaml` under a folder with `job` or `product` at its top level, in order of path. Unreadable files are listed
 * too, so that reading them reports why. Links that leave the folder are not followed.
 */
export const listJobs = (folder: string, io: Io): readonly string[] =>
  listYaml(folder, io).flatMap(({ path, real }) => (isLostName(path, real, io) || isJob(real, io) ? [path] : []));

/** Whether a name could not be decoded: its file cannot be opened, and loading it says so. */
const isLostName = (path: string, real: string, io: Io) => path.includes("\ufffd") && io.stat(real) === undefined;

/** The path of a file as found, and with links resolved. */
type FoundFile = { readonly path: string; readonly real: string };

/**
 * Lists every `*.yaml` under a folder in the same order as `listJobs`, without reading it. A link comes into the list only where
 * nothing else leads to its file.
 */
export function listYaml(folder: string, io: Io): readonly FoundFile[] {
  const root = io.realPath(folder);
  if (root === undefined) return [];
  const found: FoundFile[] = [];
  const seen = new Set<string>();
  const links: (() => void)[] = [];
  const visit = (path: string, real: string, name: string, depth: number, kind: string | undefined): void => {
    if (kind === "folder") walk(path, real, depth + 1);
    else if (!seen.has(real) && name.toLowerCase().endsWith(".yaml")) {
      seen.add(real);
      found.push({ path, real });
    }
  };
  const walk = (path: string, real: string, depth: number): void => {
    if (seen.has(real) || depth > DEPTH) return;
    seen.add(real);
    const plain = io.regularEntries?.(path);
    const [below, realBelow] = [join(path, sep), join(real, sep)];
    for (const name of io.listFolder(path)) {
      if (name.startsWith(".") || SKIPPED.has(name)) continue;
      const inner = below + name;
      const kind = plain?.get(name);
      const innerReal = kind ? realBelow + name : io.realPath(inner);
      // A folder of such a name cannot be opened either.
      if (name.includes("\ufffd") && io.stat(inner) === undefined) found.push({ path: inner, real: inner });
      else if (innerReal === realBelow + name) visit(inner, innerReal, name, depth, kind ?? io.stat(innerReal)?.kind);
      else if (innerReal !== undefined && isInside(root, innerReal))
        links.push(() => visit(inner, innerReal, name, depth, io.stat(innerReal)?.kind));
    }
  };
  walk(folder, root, 0);
  for (let next = links.shift(); next; next = links.shift()) next();
  return found.toSorted((a, b) => compareNames(a.path, b.path));
}

/** Order of the walk: by folder, name after name. */
function compareNames(a: string, b: string): number {
  const [left, right] = [a.split(sep), b.split(sep)];
  const at = left.findIndex((name, index) => name !== right[index]);
  const [one = "", other = ""] = at < 0 ? [] : [left[at], right[at]];
  return one < other ? -1 : one > other ? 1 : 0;
}

/** Whether a file is a job, or cannot be read. */
export function isJob(real: string, io: Io): boolean {
  const read = io.readFile(real, FILE_LIMITS.yaml);
  if (read.kind === "read") return JOB_OR_PRODUCT_KEY.test(decodeLatin1(read.bytes));
  return read.kind === "too-large" || read.kind === "unreadable";
}
