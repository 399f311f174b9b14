import { join } from "node:path";
import type { Io } from "../io/io.ts";

/** Folders that hold no jobs of a shop. */
const SKIPPED = new Set(["node_modules", "dist", "out"]);
const DEPTH = 8;
const LARGEST = 256 * 1024;
const TOP_LEVEL_KEY = /^(?:job|product)[ \t]*:/m;

/** Every `*.yaml` under a folder that has `job` or `product` at its top level, in order of path. */
export function listJobs(folder: string, io: Io): readonly string[] {
  const seen = new Set<string>();
  const walk = (path: string, depth: number): string[] => {
    const real = io.realPath(path);
    if (real === undefined || seen.has(real) || depth > DEPTH) return [];
    seen.add(real);
    return io.listFolder(path).flatMap((name) => {
      if (name.startsWith(".") || SKIPPED.has(name)) return [];
      const inner = join(path, name);
      const found = io.stat(inner);
      if (found?.kind === "folder") return walk(inner, depth + 1);
      if (found?.kind !== "file" || !name.toLowerCase().endsWith(".yaml") || found.bytes > LARGEST) return [];
      return TOP_LEVEL_KEY.test(io.readTextFile(inner)) ? [inner] : [];
    });
  };
  return walk(folder, 0);
}
