import { join } from "node:path";
import type { CompareAt } from "../../model/model.ts";
import { FILE_LIMITS } from "../../project/limits.ts";
import { isJob } from "../../project/list-jobs.ts";
import type { Pascals } from "../../units/quantity.ts";
import { workOut } from "../../work-out.ts";
import { type AskedOnce, readingOf } from "./asked-once.ts";
import { entryOf } from "./entry-of.ts";
import type { Share } from "./share.ts";
import { inLine, type Kept, ownWord } from "./shelf-cache.ts";
import type { ShelfEntry } from "./shelf-entry.ts";

/** Where flows are set side by side, whatever the jobs say. */
export const SHELF_LIFTS: readonly CompareAt[] = (["low", "mid", "high", "cam"] as const).map((kind) => ({
  kind,
}));

/** Few enough that all end about together. */
const AT_ONCE = 4;

/** A job's entry, or null for what is none, and what the shelf keeps of it. */
type Worked = { readonly entry: ShelfEntry | null; readonly kept: Kept };
/** `index` among the files of the share. */
export type WorkedFile = Worked & { readonly index: number };

/** Works out files, one after the other, as long as there are some that nobody took. */
export function* workOutShare(
  { folder, files, reals, testPressure, taken }: Share,
  once: AskedOnce,
): Generator<WorkedFile> {
  for (;;) {
    const from = Atomics.add(taken, 0, AT_ONCE);
    if (from >= files.length) return;
    for (let index = from; index < Math.min(from + AT_ONCE, files.length); index++) {
      const file = files[index]!;
      const real = reals[index];
      if (real !== undefined) once.told(join(folder, file), real);
      const { entry, kept } = workOutFile(file, folder, testPressure, once);
      yield { index, entry, kept };
    }
  }
}

/** What the shelf makes of one file. */
export function workOutFile(file: string, folder: string, testPressure: Pascals, once: AskedOnce): Worked {
  const { io, answer, answered, during } = once;
  const path = join(folder, file);
  const real = io.realPath(path) ?? path;
  const { result: entry, questions } = during(() =>
    isJob(real, io)
      ? entryOf(file, workOut(file, { testPressure, reportLifts: SHELF_LIFTS, pictures: false }, io, folder))
      : null,
  );
  const contents = readingOf(real, FILE_LIMITS.yaml);
  const others = questions.filter((one) => one !== contents && one !== `realPath ${path}`);
  const kept = { entry: inLine(entry), own: ownWord(path, real, answer(contents)), answers: answered(others) };
  return { entry, kept };
}
