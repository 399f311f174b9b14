import { sep } from "node:path";
import { createReplay } from "../../io/recording-io.ts";
import { listYaml } from "../../project/list-jobs.ts";
import { createLoadCache } from "../../project/load-cache.ts";
import type { Pascals } from "../../units/quantity.ts";
import type { Environment } from "../environment.ts";
import { buildId } from "../environment.ts";
import { type CachedEntry, readCache, writeCache } from "./entry-cache.ts";
import type { ShelfEntry } from "./shelf-entry.ts";

/** Jobs between two updates of the progress, which shorter lists do not show; more frequent updates flicker. */
const PROGRESS_STEP = 20;

/** Reads the entry of every job below a folder, in order of path; with `cached`, unchanged entries are reused. */
export async function readShelf(
  folder: string,
  testPressure: Pascals,
  cached: boolean,
  environment: Environment,
): Promise<readonly ShelfEntry[]> {
  const { io } = environment;
  const key = JSON.stringify([buildId(environment) ?? environment.version, folder, io.homeFolder, testPressure]);
  const before: ReadonlyMap<string, CachedEntry> = cached ? readCache(folder, key, io) : new Map();
  const sameResults = createReplay(io);
  const valid = new Map([...before].filter(([, { queries }]) => sameResults(queries)));
  const files = filesBelow(folder, environment);
  const stale = files.filter((file) => !valid.has(file));
  const fresh = await evaluate(stale, folder, testPressure, environment);
  const entries = new Map(files.map((file) => [file, (valid.get(file) ?? fresh.get(file))!]));
  if (cached && (stale.length > 0 || files.length !== before.size)) writeCache(folder, key, entries);
  return [...entries.values()].flatMap(({ entry }) => entry ?? []);
}

function filesBelow(folder: string, { io }: Environment): readonly string[] {
  const start = folder.endsWith(sep) ? folder.length : folder.length + 1;
  return listYaml(folder, io).map(({ path }) => path.slice(start).replaceAll(sep, "/"));
}

async function evaluate(
  files: readonly string[],
  folder: string,
  testPressure: Pascals,
  { io, terminal, err }: Environment,
): Promise<ReadonlyMap<string, CachedEntry>> {
  const entries = new Map<string, CachedEntry>();
  if (files.length === 0) return entries;
  // Importing schemas and figures takes longer than reading a cached shelf.
  const { evaluateFile } = await import("./build-entry.ts");
  const cache = createLoadCache();
  const progress = terminal && files.length >= PROGRESS_STEP;
  for (const [index, file] of files.entries()) {
    if (progress && index % PROGRESS_STEP === 0) err(`\r\u001b[K${index}/${files.length}`);
    entries.set(file, evaluateFile(file, folder, testPressure, io, cache));
  }
  if (progress) err("\r\u001b[K");
  return entries;
}
