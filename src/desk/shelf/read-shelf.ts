import { relative } from "node:path";
import { listJobs } from "../../project/list-jobs.ts";
import type { Pascals } from "../../units/quantity.ts";
import { buildOf } from "../look-ahead.ts";
import type { World } from "../world.ts";
import { type AskedOnce, askedOnce } from "./asked-once.ts";
import { type Kept, readCache, writeCache } from "./shelf-cache.ts";
import type { ShelfEntry } from "./shelf-entry.ts";
import { type Done, nothingTaken, SHARE_SCRIPT, type Share, workOutEntry, workOutShare } from "./work-out-share.ts";

export type ShelfRun = { readonly testPressure: Pascals; readonly cache: boolean };

/** A thread takes about as long to start as these to work out. */
const WORTH_A_THREAD = 100;

/** Every job under a folder, in order of path; what has not changed since the last run is taken from there. */
export async function readShelf(
  folder: string,
  { testPressure, cache }: ShelfRun,
  world: World,
): Promise<readonly ShelfEntry[]> {
  const once = askedOnce(world.io);
  const files = listJobs(folder, once.io).map((path) => relative(folder, path).replaceAll("\\", "/"));
  const made = madeBy(folder, testPressure, world);
  const known = cache ? readCache(folder, made, world.io) : new Map<string, Kept>();
  const still = new Map(
    files.flatMap((file) => {
      const kept = known.get(file);
      return kept?.answers.every(([question, answer]) => once.answer(question) === answer) ? [[file, kept]] : [];
    }),
  );
  const fresh = files.filter((file) => !still.has(file));
  const done = await workOutAll({ folder, files: fresh, testPressure, taken: nothingTaken() }, once, world);
  const kept = files.map((file) => still.get(file) ?? done.get(file)!);
  if (cache && (fresh.length > 0 || known.size !== kept.length)) writeCache(folder, made, kept);
  return kept.map(({ entry }) => entry);
}

/** Every file worked out, by as many threads as are worth it. */
async function workOutAll(share: Share, once: AskedOnce, world: World): Promise<ReadonlyMap<string, Kept>> {
  const { folder, files, testPressure } = share;
  const { free, run } = world.threads ?? { free: 0, run: async () => [] };
  const helped = Array.from(
    { length: Math.min(free, Math.floor(files.length / WORTH_A_THREAD)) },
    () =>
      // What a thread took and did not bring is worked out here: a fault in it then shows.
      run(SHARE_SCRIPT, share).catch((): Done => []) as Promise<Done>,
  );
  const shows = world.terminal && files.length >= 20;
  const own = workOutShare(share, once, (taken) => shows && world.err(`\r\u001b[K${taken}/${files.length}`));
  const done = new Map([own, ...(await Promise.all(helped))].flat().map(([index, kept]) => [files[index]!, kept]));
  if (shows) world.err("\r\u001b[K");
  for (const file of files) if (!done.has(file)) done.set(file, workOutEntry(file, folder, testPressure, once));
  return done;
}

/**
 * All that an entry depends on but the disk's answers: the program, to the byte, the folder, the pressure of the report. A program
 * that was not built says its version alone.
 */
const madeBy = (folder: string, testPressure: Pascals, world: World): string =>
  JSON.stringify([buildOf(world) ?? world.version, folder, world.io.homeFolder, testPressure]);
