import { createHash } from "node:crypto";
import { join } from "node:path";
import { isWorldly } from "../../io/in-words.ts";
import { linesIn } from "../../io/lines-in.ts";
import { writeBesideThenRename } from "../../io/write-beside-then-rename.ts";
import type { DisplayUnits } from "../../model/model.ts";
import type { Pascals } from "../../units/quantity.ts";
import type { Answered, Question } from "./asked-once.ts";
import type { ShelfEntry } from "./shelf-entry.ts";

/** What the shelf keeps of a file: it holds while the file and every answer are the same. */
export type Kept = {
  /** Its entry as a line of JSON; null for one that is no job. */
  readonly entry: string;
  /** What the file itself says, as `ownWord` has it. */
  readonly own: string;
  /** What else the entry was made from. */
  readonly answers: readonly Answered[];
};

/** A file's contents in short, and where it really stands if that is elsewhere. */
export const ownWord = (path: string, real: string, contents: string): string =>
  real === path ? contents : `${contents} ${real}`;

/** What a shelf takes from its shop. */
export type ShownAs = { readonly units: DisplayUnits; readonly testPressure: Pascals };
export type KeptShop = ShownAs & { readonly answers: readonly Answered[] };

/** The cache stands with the jobs, in a folder that no list of jobs looks into. */
export const cacheFile = (folder: string): string => join(folder, ".headsheet", "shelf.json");

/** The first part of the file: all that decides whether an entry is used, without the entries. */
type Head = {
  readonly shop: ShownAs;
  readonly shopFrom: readonly number[];
  /** That the entries are converted to. */
  readonly testPressure: Pascals;
  /** Each with its answer, once. */
  readonly questions: readonly Question[];
  readonly answers: readonly string[];
  /** Of each file its name below the folder, what it says itself, and the group of questions that else its entry was made from. */
  readonly files: readonly string[];
  readonly own: readonly string[];
  readonly group: readonly number[];
  /** Questions by their numbers: most files of a folder share all of theirs. */
  readonly groups: readonly (readonly number[])[];
  /** The seal of the entries. */
  readonly entries: string;
};

/** What an earlier run kept. */
export type Cache = {
  readonly head: Head;
  /** Hands out the line of each file, in order, once; false where they are not as they were written: then none of them holds. */
  readonly entries: (take: (index: number, line: Buffer) => void) => boolean;
  readonly close: () => void;
};

/**
 * Opens what an earlier run kept. `made` tells all else that it depends on: the program. A cache of another make, or one that
 * is not as it was written, is as good as none. Entries pass by one after the other: thousands of them would fill the memory,
 * and that takes longer than reading them.
 */
export function openCache(folder: string, made: string): Cache | undefined {
  const lines = linesIn(cacheFile(folder));
  const next = () => textOf(lines.next().value ?? undefined);
  const seal = next();
  const line = next();
  if (line === "" || seal !== sealOf(made, line)) {
    lines.return();
    return undefined;
  }
  const head = JSON.parse(line) as Head;
  return {
    head,
    entries: (take) => {
      const sum = createHash("sha256");
      const failures: unknown[] = [];
      let index = 0;
      for (const entry of lines) {
        sum.update(entry);
        try {
          if (failures.length === 0) take(index++, entry);
        } catch (failure) {
          // What is not as it was written may be anything. That is known at its end.
          failures.push(failure);
        }
      }
      if (sum.digest("hex") !== head.entries) return false;
      if (failures.length > 0) throw failures[0];
      return true;
    },
    close: () => lines.return(),
  };
}

/** What the next run is to find: entries as they come, in any order. */
export type CacheInMaking = {
  readonly add: (file: string, kept: Kept) => void;
  /** A folder that may not be written into has no cache, and lacks nothing but speed. */
  readonly write: (
    folder: string,
    made: string,
    of: { readonly shop: KeptShop; readonly testPressure: Pascals },
  ) => void;
};

export function cacheInMaking(): CacheInMaking {
  // Threads may have been told different things: a file that was saved in between.
  const asked = numbered(([question, answer]: Answered) => `${question} ${answer}`);
  const groups = numbered((numbers: readonly number[]) => numbers.join());
  const grouped = new Map<readonly Answered[], number>();
  const groupOf = (answers: readonly Answered[]): number => {
    const group = grouped.get(answers) ?? groups.numberOf(answers.map(asked.numberOf));
    grouped.set(answers, group);
    return group;
  };
  const files: string[] = [];
  const owns: string[] = [];
  const group: number[] = [];
  const entries = linesInMaking();
  return {
    add: (file, { entry, own, answers }) => {
      files.push(file);
      owns.push(own);
      group.push(groupOf(answers));
      entries.add(entry);
    },
    write: (folder, made, { shop, testPressure }) => {
      const { parts, sum } = entries.all();
      const head = inLine({
        shop: { units: shop.units, testPressure: shop.testPressure },
        shopFrom: shop.answers.map(asked.numberOf),
        testPressure,
        files,
        own: owns,
        group,
        groups: groups.all,
        questions: asked.all.map(([question]) => question),
        answers: asked.all.map(([, answer]) => answer),
        entries: sum,
      } satisfies Head);
      try {
        writeBesideThenRename(cacheFile(folder), [Buffer.from(`${sealOf(made, head)}\n${head}\n`, "latin1"), ...parts]);
      } catch (error) {
        if (!isWorldly(error)) throw error;
      }
    },
  };
}

const PART = 256 * 1024;

/** Lines put into bytes and summed as they come: thousands of them at once are waited for. */
function linesInMaking() {
  const sum = createHash("sha256");
  const parts: Buffer[] = [];
  let part = Buffer.allocUnsafeSlow(PART);
  let filled = 0;
  const close = () => {
    parts.push(part.subarray(0, filled));
    sum.update(part.subarray(0, filled));
  };
  return {
    add: (line: string) => {
      if (filled + line.length + 1 > part.length) {
        close();
        part = Buffer.allocUnsafeSlow(Math.max(PART, line.length + 1));
        filled = 0;
      }
      filled += part.write(line, filled, "latin1");
      filled = part.writeUInt8(LINE_END, filled);
    },
    all: () => {
      close();
      return { parts, sum: sum.digest("hex") };
    },
  };
}
const LINE_END = 10;

/** Things each under a number of its own, equal ones under one. */
function numbered<T>(keyOf: (thing: T) => string) {
  const numbers = new Map<string, number>();
  const all: T[] = [];
  const numberOf = (thing: T): number => {
    const key = keyOf(thing);
    const number = numbers.get(key) ?? all.push(thing) - 1;
    numbers.set(key, number);
    return number;
  };
  return { all, numberOf };
}

/** JSON on one line, in letters of one byte: so it is read quickest. */
export const inLine = (value: ShelfEntry | Head | null): string =>
  JSON.stringify(value).replace(/[^\0-\x7f]/g, (letter) => `\\u${letter.charCodeAt(0).toString(16).padStart(4, "0")}`);

/** A line without its end. */
export const textOf = (line: Buffer | undefined): string =>
  line ? line.toString("latin1", 0, line.at(-1) === 10 ? line.length - 1 : line.length) : "";

const sealOf = (made: string, head: string) => createHash("sha256").update(`${made}\n${head}`).digest("hex");
