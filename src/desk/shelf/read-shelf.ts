import { sep } from "node:path";
import type { Thread } from "../../io/threads.ts";
import { FILE_LIMITS } from "../../project/limits.ts";
import { type Listed, listYaml } from "../../project/list-jobs.ts";
import type { Pascals } from "../../units/quantity.ts";
import { buildOf } from "../build-of.ts";
import type { World } from "../world.ts";
import { type AskedOnce, askedOnce } from "./asked-once.ts";
import { type Done, nothingTaken, SHARE_SCRIPT, type Share } from "./share.ts";
import { type Cache, type Kept, type KeptShop, openCache, ownWord, textOf, writeCache } from "./shelf-cache.ts";
import type { ShelfEntry } from "./shelf-entry.ts";

/** A thread takes about as long to start as these to work out. */
const WORTH_A_THREAD = 100;
/** A terminal that is written to more often only flickers. */
const SHOWN_EVERY = 20;

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
  const taken = cache ? takeFrom(cache, still, whole, of) : undefined;
  shelf.cache?.close();

  const fresh = files.filter((file) => !taken?.values.has(file));
  const share = { folder, files: fresh, reals: realsOf(fresh, files, listed), testPressure, taken: nothingTaken() };
  const done = fresh.length === 0 ? NOTHING_TAKEN : await workOutAll(share, shelf, world, of);
  if (made !== undefined && !(whole && fresh.length === 0)) {
    const kept = new Map(files.map((file) => [file, done.kept.get(file) ?? taken!.kept.get(file)!]));
    writeCache(folder, made, { shop, testPressure, kept });
  }
  return files.flatMap((file) => (taken?.values.has(file) ? taken : done).values.get(file) ?? []).map((one) => one.of);
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
type Taken<T> = { readonly values: ReadonlyMap<string, Value<T>>; readonly kept: ReadonlyMap<string, Kept> };
const NOTHING_TAKEN: Taken<never> = { values: new Map(), kept: new Map() };

/** What is made of the entries that still hold; where the cache is to be written anew, those entries too. */
function takeFrom<T>(
  cache: Cache,
  still: ReadonlySet<number>,
  whole: boolean,
  of: (entry: ShelfEntry) => T,
): Taken<T> | undefined {
  const { files, own, group, groups } = cache.head;
  const values = new Map<string, Value<T>>();
  const kept = new Map<string, Kept>();
  const asWritten = cache.entries((number, line) => {
    if (!still.has(number)) return;
    const entry = textOf(line);
    values.set(files[number]!, valueIn(entry, of));
    if (!whole)
      kept.set(files[number]!, { entry, own: own[number]!, answers: answersTo(groups[group[number]!]!, cache) });
  });
  return asWritten ? { values, kept } : undefined;
}

function valueIn<T>(line: string, of: (entry: ShelfEntry) => T): Value<T> {
  const entry = JSON.parse(line) as ShelfEntry | null;
  return entry === null ? undefined : { of: of(entry) };
}

/** Every file worked out, with the threads that are worth it, and what is made of its entry. */
async function workOutAll<T>(
  share: Share,
  { once, helpers }: OpenShelf,
  world: World,
  of: (entry: ShelfEntry) => T,
): Promise<Taken<T>> {
  const { folder, files, testPressure } = share;
  const helped = (helpers.length > 0 ? helpers : helpersFor(files.length, world)).map(
    ({ run }) =>
      // What a thread took and did not bring is worked out here: a fault in it then shows.
      run(share).catch((): Done => []) as Promise<Done>,
  );
  // The threads load it meanwhile, and a shelf that was kept needs none of it.
  const { workOutFile, workOutShare } = await import("./work-out-share.ts");
  const shows = world.terminal && files.length >= 20;
  const values = new Map<string, Value<T>>();
  const kept = new Map<string, Kept>();
  const take = (file: string, one: Kept) => {
    kept.set(file, one);
    values.set(file, valueIn(one.entry, of));
  };
  for (const [index, one] of workOutShare(share, once)) {
    if (shows && index % SHOWN_EVERY === 0) world.err(`\r\u001b[K${index}/${files.length}`);
    // At once: the other threads take more of the files meanwhile.
    take(files[index]!, one);
  }
  for (const done of await Promise.all(helped)) for (const [index, one] of done) take(files[index]!, one);
  if (shows) world.err("\r\u001b[K");
  for (const file of files) if (!kept.has(file)) take(file, workOutFile(file, folder, testPressure, once));
  return { values, kept };
}

/**
 * All that an entry depends on but the disk's answers and the pressure of the report: the program, to the byte, and the folder.
 * A program that was not built says its version alone.
 */
const madeBy = (folder: string, world: World): string =>
  JSON.stringify([buildOf(world) ?? world.version, folder, world.io.homeFolder]);
