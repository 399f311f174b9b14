import { sep } from "node:path";
import type { Thread } from "../../io/threads.ts";
import { FILE_LIMITS } from "../../project/limits.ts";
import { type Listed, listYaml } from "../../project/list-jobs.ts";
import type { Pascals } from "../../units/quantity.ts";
import { buildOf } from "../build-of.ts";
import type { World } from "../world.ts";
import { type AskedOnce, askedOnce } from "./asked-once.ts";
import { type Done, nothingTaken, SHARE_SCRIPT, type Share } from "./share.ts";
import {
  type Cache,
  type CacheInMaking,
  cacheInMaking,
  type Kept,
  type KeptShop,
  openCache,
  ownWord,
  textOf,
} from "./shelf-cache.ts";
import type { ShelfEntry } from "./shelf-entry.ts";

/** A thread takes about as long to start as these to work out. */
const WORTH_A_THREAD = 100;
/** A terminal that is written to more often only flickers. */
const SHOWN_EVERY = 20;
/** What other threads have done is looked at as often: at the end nothing is left over. */
const LOOKED_EVERY = 16;

/** A shelf before it is read: the disk as this run sees it, and what an earlier one kept. */
export type OpenShelf = {
  readonly folder: string;
  readonly once: AskedOnce;
  /** Undefined where nothing is to be kept. */
  readonly made: string | undefined;
  readonly cache: Cache | undefined;
  /** Whether the disk still answers some questions of the cache as it did, by their numbers. */
  readonly holds: (numbers: readonly number[]) => boolean;
  /** Whether the shop is as it was kept. */
  readonly shopHolds: boolean;
  readonly listed: readonly Listed[];
  /** Threads that load what they need while this one reads the shop, where surely all files are to be worked out. */
  readonly helpers: readonly Thread[];
};

export function openShelf(folder: string, keep: boolean, world: World): OpenShelf {
  const once = askedOnce(world.io);
  const made = keep ? madeBy(folder, world) : undefined;
  const cache = made === undefined ? undefined : openCache(folder, made);
  const holds = (numbers: readonly number[]): boolean =>
    numbers.every((number) => once.answer(cache!.head.questions[number]!) === cache!.head.answers[number]);
  const shopHolds = cache !== undefined && holds(cache.head.shopFrom);
  const listed = listYaml(folder, once.io);
  return {
    folder,
    once,
    made,
    cache,
    holds,
    shopHolds,
    listed,
    helpers: cache ? [] : helpersFor(listed.length, world),
  };
}

/** As many threads as are worth it. */
const helpersFor = (files: number, { threads }: World): readonly Thread[] =>
  threads
    ? Array.from({ length: Math.min(threads.free, Math.floor(files / WORTH_A_THREAD)) }, () =>
        threads.start(SHARE_SCRIPT),
      )
    : [];

/** Units and pressure of the shop that a folder stands under, as kept or read anew. */
export async function shopOf({ folder, once, cache, shopHolds }: OpenShelf, { cwd }: World): Promise<KeptShop> {
  if (cache && shopHolds) return { ...cache.head.shop, answers: answersTo(cache.head.shopFrom, cache) };
  const { shownAs } = await import("./shelf-shop.ts");
  const { result, questions } = once.during(() => shownAs(folder, once.io, cwd));
  return { ...result, answers: questions.map((question) => [question, once.answer(question)]) };
}

/**
 * What `of` makes of every job under a folder, in order of path; what has not changed since the last run is taken from there.
 * Entries themselves are let go unless `of` keeps them.
 */
export async function readShelf<T>(
  shelf: OpenShelf,
  shop: KeptShop,
  testPressure: Pascals,
  world: World,
  of: (entry: ShelfEntry) => T,
): Promise<readonly T[]> {
  const { folder, made, listed } = shelf;
  const files = namesBelow(folder, listed);
  const cache = shelf.cache?.head.testPressure === testPressure ? shelf.cache : undefined;
  const still = cache ? holding(files, listed, cache, shelf) : new Set<number>();
  const whole =
    cache !== undefined && shelf.shopHolds && still.size === files.length && still.size === cache.head.files.length;
  const next = (): CacheInMaking | undefined => (made === undefined ? undefined : cacheInMaking());
  const taken = cache ? takeFrom(cache, still, whole ? undefined : next(), of) : undefined;
  shelf.cache?.close();

  const fresh = files.filter((file) => !taken?.values.has(file));
  const share = { folder, files: fresh, reals: realsOf(fresh, files, listed), testPressure, taken: nothingTaken() };
  const values = taken?.values ?? new Map<string, Value<T>>();
  const keep = whole && fresh.length === 0 ? undefined : (taken?.keep ?? next());
  if (fresh.length > 0) {
    await workOutAll(share, shelf, world, (file, kept, entry) => {
      keep?.add(file, kept);
      values.set(file, madeOf(entry, of));
    });
  }
  if (made !== undefined) keep?.write(folder, made, { shop, testPressure });
  return files.flatMap((file) => values.get(file) ?? []).map((one) => one.of);
}

function namesBelow(folder: string, listed: readonly Listed[]): readonly string[] {
  const start = folder.endsWith(sep) ? folder.length : folder.length + 1;
  return listed.map(({ path }) => (sep === "/" ? path.slice(start) : path.slice(start).replaceAll(sep, "/")));
}

/** Where plain files really stand. */
function realsOf(fresh: readonly string[], files: readonly string[], listed: readonly Listed[]) {
  const reals = new Map(files.map((file, k) => [file, listed[k]!.plain ? listed[k]!.real : undefined]));
  return fresh.map((file) => reals.get(file));
}

/** Which of the files that a cache knows are still as they were, by their numbers there. */
function holding(
  files: readonly string[],
  listed: readonly Listed[],
  { head }: Cache,
  { once, holds }: OpenShelf,
): ReadonlySet<number> {
  const numbers = new Map(head.files.map((file, number) => [file, number]));
  const groups = head.groups.map(holds);
  const still = new Set<number>();
  files.forEach((file, k) => {
    const number = numbers.get(file);
    if (number === undefined || !groups[head.group[number]!]) return;
    const { path, real, plain } = listed[k]!;
    if (ownWord(path, real, once.fileNow(real, FILE_LIMITS.yaml, plain)) === head.own[number]) still.add(number);
  });
  return still;
}

const answersTo = (numbers: readonly number[], { head }: Cache) =>
  numbers.map((number) => [head.questions[number]!, head.answers[number]!] as const);

type Value<T> = { readonly of: T } | undefined;
type Taken<T> = { readonly values: Map<string, Value<T>>; readonly keep: CacheInMaking | undefined };

/** What is made of the entries that still hold; where the cache is to be written anew, those entries are kept in `keep`. */
function takeFrom<T>(
  cache: Cache,
  still: ReadonlySet<number>,
  keep: CacheInMaking | undefined,
  of: (entry: ShelfEntry) => T,
): Taken<T> | undefined {
  const { files, own, group, groups } = cache.head;
  const values = new Map<string, Value<T>>();
  const asWritten = cache.entries((number, line) => {
    if (!still.has(number)) return;
    const entry = textOf(line);
    values.set(files[number]!, madeOf(entryIn(entry), of));
    keep?.add(files[number]!, { entry, own: own[number]!, answers: answersTo(groups[group[number]!]!, cache) });
  });
  return asWritten ? { values, keep } : undefined;
}

const entryIn = (line: string) => JSON.parse(line) as ShelfEntry | null;
const madeOf = <T>(entry: ShelfEntry | null, of: (entry: ShelfEntry) => T): Value<T> =>
  entry === null ? undefined : { of: of(entry) };

/** Every file worked out, with the threads that are worth it, each handed over once. */
async function workOutAll(
  share: Share,
  { once, helpers }: OpenShelf,
  world: World,
  take: (file: string, kept: Kept, entry: ShelfEntry | null) => void,
): Promise<void> {
  const { folder, files, testPressure } = share;
  const left = new Set(files);
  const takeOne = (index: number, kept: Kept, entry = entryIn(kept.entry)) => {
    const file = files[index]!;
    take(file, kept, entry);
    left.delete(file);
  };
  const helped = (helpers.length > 0 ? helpers : helpersFor(files.length, world)).map(({ run }) =>
    // What a thread took and did not bring is worked out here: a fault in it then shows.
    run(share, (part) => {
      for (const [index, kept] of part as Done) takeOne(index, kept);
    }).catch(() => undefined),
  );
  // The threads load it meanwhile, and a shelf that was kept needs none of it.
  const { workOutFile, workOutShare } = await import("./work-out-share.ts");
  const shows = world.terminal && files.length >= 20;
  let own = 0;
  for (const { index, kept, entry } of workOutShare(share, once)) {
    if (shows && index % SHOWN_EVERY === 0) world.err(`\r\u001b[K${index}/${files.length}`);
    takeOne(index, kept, entry);
    if (helped.length > 0 && ++own % LOOKED_EVERY === 0) await new Promise(setImmediate);
  }
  await Promise.all(helped);
  if (shows) world.err("\r\u001b[K");
  for (const file of left) {
    const { kept, entry } = workOutFile(file, folder, testPressure, once);
    take(file, kept, entry);
  }
}

/**
 * All that an entry depends on but the disk's answers and the pressure of the report: the program, to the byte, and the folder.
 * A program that was not built says its version alone.
 */
const madeBy = (folder: string, world: World): string =>
  JSON.stringify([buildOf(world) ?? world.version, folder, world.io.homeFolder]);
