import { createHash } from "node:crypto";
import { join } from "node:path";
import { isWorldly } from "../../io/in-words.ts";
import type { Io } from "../../io/io.ts";
import { writeBesideThenRename } from "../../io/write-beside-then-rename.ts";
import type { Question } from "./asked-once.ts";
import type { ShelfEntry } from "./shelf-entry.ts";

/** A job's entry, and all that it was made from: it holds while every answer is still the same. */
export type Kept = { readonly entry: ShelfEntry; readonly answers: readonly (readonly [Question, string])[] };

/** Far above any shop's archive [bytes]. */
const LARGEST = 512 * 1024 * 1024;

/** The cache stands with the jobs, in a folder that no list of jobs looks into. */
export const cacheFile = (folder: string): string => join(folder, ".headsheet", "shelf.json");

type OnFile = {
  readonly questions: readonly (readonly [Question, string])[];
  readonly entries: readonly (readonly [ShelfEntry, readonly number[]])[];
};

/**
 * What an earlier run kept, by the job's path. `made` tells all else that the entries depend on: program, pressure. A cache
 * of another make, or one that is not as it was written, is as good as none.
 */
export function readCache(folder: string, made: string, io: Io): ReadonlyMap<string, Kept> {
  const none = new Map<string, Kept>();
  const read = io.readFile(cacheFile(folder), LARGEST);
  if (read.kind !== "read") return none;
  const bytes = Buffer.from(read.bytes.buffer, read.bytes.byteOffset, read.bytes.length);
  const line = bytes.indexOf("\n");
  const body = bytes.subarray(line + 1);
  if (line < 0 || bytes.toString("latin1", 0, line) !== seal(made, body)) return none;
  const { questions, entries } = JSON.parse(body.toString("utf8")) as OnFile;
  return new Map(entries.map(([entry, of]) => [entry.file, { entry, answers: of.map((index) => questions[index]!) }]));
}

/** Keeps the entries for the next run. A folder that may not be written into has no cache, and lacks nothing but speed. */
export function writeCache(folder: string, made: string, kept: readonly Kept[]): void {
  const indexes = new Map<string, number>();
  const questions: (readonly [Question, string])[] = [];
  const entries = kept.map(({ entry, answers }) => {
    const of = answers.map(([question, answer]) => {
      // Threads may have been told different things: a file that was saved in between.
      const key = [...question, answer].join(" ");
      const index = indexes.get(key) ?? questions.push([question, answer]) - 1;
      indexes.set(key, index);
      return index;
    });
    return [entry, of] as const;
  });
  const body = Buffer.from(JSON.stringify({ questions, entries } satisfies OnFile));
  try {
    writeBesideThenRename(cacheFile(folder), Buffer.concat([Buffer.from(`${seal(made, body)}\n`), body]));
  } catch (error) {
    if (!isWorldly(error)) throw error;
  }
}

const seal = (made: string, body: Uint8Array) =>
  createHash("sha256").update(made).update("\n").update(body).digest("hex");
