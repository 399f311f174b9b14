import { join } from "node:path";
import type { Io } from "../../io/io.ts";
import type { IoQuery } from "../../io/recording-io.ts";
import { sha256 } from "../../io/sha256.ts";
import { isSystemError } from "../../io/system-errors.ts";
import { writeAtomically } from "../../io/write-atomically.ts";
import type { ShelfEntry } from "./shelf-entry.ts";

/** Entry of a file, null for a file that is no job; valid while all recorded queries give equal results. */
export type CachedEntry = { readonly entry: ShelfEntry | null; readonly queries: readonly IoQuery[] };

/** The cache file is beside the jobs, in a folder that the list of jobs skips. */
const cacheFile = (folder: string): string => join(folder, ".headsheet", "shelf.jsonl");
const MAX_BYTES = 256 * 1024 * 1024;
const LINE_END = 10;

/**
 * Reads the cached entries by file. `key` holds what they depend on besides their queries: build, folder, test pressure. Empty for
 * another key or a damaged file.
 */
export function readCache(folder: string, key: string, io: Io): ReadonlyMap<string, CachedEntry> {
  const read = io.readFile(cacheFile(folder), MAX_BYTES);
  if (read.kind !== "read") return new Map();
  const bytes = Buffer.from(read.bytes.buffer, read.bytes.byteOffset, read.bytes.length);
  const start = bytes.indexOf(LINE_END) + 1;
  const body = bytes.subarray(start);
  if (bytes.toString("latin1", 0, start) !== checksumLine(key, body)) return new Map();
  const lines = body.toString("utf8").split("\n").slice(0, -1);
  return new Map(lines.map((line) => JSON.parse(line) as [string, CachedEntry]));
}

/** Rewrites the cache; ignores a system error, which only makes the next list slower. */
export function writeCache(folder: string, key: string, entries: ReadonlyMap<string, CachedEntry>): void {
  const body = Buffer.from([...entries].map((one) => `${JSON.stringify(one)}\n`).join(""));
  try {
    writeAtomically(cacheFile(folder), Buffer.concat([Buffer.from(checksumLine(key, body)), body]));
  } catch (error) {
    if (!isSystemError(error)) throw error;
  }
}

const checksumLine = (key: string, body: Uint8Array): string => `${sha256(`${key}\n${sha256(body)}`)}\n`;
