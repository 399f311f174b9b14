import { relative } from "node:path";
import type { CompareAt } from "../../model/model.ts";
import { listJobs } from "../../project/list-jobs.ts";
import type { Pascals } from "../../units/quantity.ts";
import { workOutInBrief } from "../../work-out.ts";
import { buildOf } from "../look-ahead.ts";
import type { World } from "../world.ts";
import { askedOnce } from "./asked-once.ts";
import { entryOf } from "./entry-of.ts";
import { type Kept, readCache, writeCache } from "./shelf-cache.ts";
import type { ShelfEntry } from "./shelf-entry.ts";

export type ShelfRun = { readonly testPressure: Pascals; readonly cache: boolean };

/** Where flows are set side by side, whatever the jobs say. */
export const SHELF_LIFTS: readonly CompareAt[] = (["low", "mid", "high", "cam", "peak"] as const).map((kind) => ({
  kind,
}));

/** Every job under a folder, in order of path; what has not changed since the last run is taken from there. */
export function readShelf(folder: string, { testPressure, cache }: ShelfRun, world: World): readonly ShelfEntry[] {
  const once = askedOnce(world.io);
  const jobs = listJobs(folder, once.io);
  const made = madeBy(folder, testPressure, world);
  const known = cache ? readCache(folder, made, world.io) : new Map<string, Kept>();
  let fresh = 0;
  const kept = jobs.map((path, index): Kept => {
    const file = relative(folder, path).replaceAll("\\", "/");
    const earlier = known.get(file);
    if (earlier?.answers.every(([question, answer]) => once.answer(question) === answer)) return earlier;
    fresh++;
    if (world.terminal && fresh % 20 === 0) world.err(`\r\u001b[K${index + 1}/${jobs.length}`);
    const { result, questions } = once.during(() =>
      entryOf(file, workOutInBrief(file, { testPressure, reportLifts: SHELF_LIFTS }, once.io, folder)),
    );
    return { entry: result, answers: questions.map((question) => [question, once.answer(question)] as const) };
  });
  if (world.terminal && fresh >= 20) world.err("\r\u001b[K");
  if (cache && (fresh > 0 || known.size !== kept.length)) writeCache(folder, made, kept);
  return kept.map(({ entry }) => entry);
}

/**
 * All that an entry depends on but the disk's answers: the program, to the byte, the folder, the pressure of the report. A program
 * that was not built says its version alone.
 */
const madeBy = (folder: string, testPressure: Pascals, world: World): string =>
  JSON.stringify([buildOf(world) ?? world.version, folder, world.io.homeFolder, testPressure]);
