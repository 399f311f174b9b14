import type { CompareAt } from "../../model/model.ts";
import type { Pascals } from "../../units/quantity.ts";
import { workOutInBrief } from "../../work-out.ts";
import type { AskedOnce } from "./asked-once.ts";
import { entryOf } from "./entry-of.ts";
import type { Kept } from "./shelf-cache.ts";

/** Where flows are set side by side, whatever the jobs say. */
export const SHELF_LIFTS: readonly CompareAt[] = (["low", "mid", "high", "cam"] as const).map((kind) => ({
  kind,
}));

/** Work that threads share: each takes the next few of the files until none is left. */
export type Share = {
  readonly folder: string;
  /** Below the folder. */
  readonly files: readonly string[];
  readonly testPressure: Pascals;
  /** How many are taken, in memory that the threads share. */
  readonly taken: Int32Array<SharedArrayBuffer>;
};

export type Done = readonly (readonly [index: number, Kept])[];

/** Few enough that all end about together, many enough that asking costs nothing. */
const AT_ONCE = 20;

/** The name of the built script that a thread runs. */
export const SHARE_SCRIPT = "shelf-share.cjs";

export const nothingTaken = () => new Int32Array(new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT));

/** Works out files as long as there are some that nobody took; `tell` hears how many are taken. */
export function workOutShare(
  { folder, files, testPressure, taken }: Share,
  once: AskedOnce,
  tell: (taken: number) => void = () => undefined,
): Done {
  const done: (readonly [number, Kept])[] = [];
  for (;;) {
    const from = Atomics.add(taken, 0, AT_ONCE);
    if (from >= files.length) return done;
    const mine = files.slice(from, from + AT_ONCE);
    tell(from + mine.length);
    done.push(...mine.map((file, i) => [from + i, workOutEntry(file, folder, testPressure, once)] as const));
  }
}

export function workOutEntry(file: string, folder: string, testPressure: Pascals, once: AskedOnce): Kept {
  const { result, questions } = once.during(() =>
    entryOf(file, workOutInBrief(file, { testPressure, reportLifts: SHELF_LIFTS }, once.io, folder)),
  );
  return { entry: result, answers: questions.map((question) => [question, once.answer(question)] as const) };
}
