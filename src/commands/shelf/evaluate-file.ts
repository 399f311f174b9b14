import { join } from "node:path";
import type { Io } from "../../io/io.ts";
import { recordIo } from "../../io/recording-io.ts";
import type { CompareAt } from "../../model/model.ts";
import { evaluateJob } from "../../pipeline/evaluate.ts";
import { isJob } from "../../project/list-jobs.ts";
import type { Pascals } from "../../units/quantity.ts";
import { buildEntry } from "./build-entry.ts";
import type { CachedEntry } from "./entry-cache.ts";

/** Where flows are set side by side, whatever the jobs say. */
export const SHELF_LIFTS: readonly CompareAt[] = (["low", "mid", "high", "cam"] as const).map((kind) => ({ kind }));

/** Evaluates one file below the folder, and records what its entry was made from. */
export function evaluateFile(file: string, folder: string, testPressure: Pascals, disk: Io): CachedEntry {
  const { io, queries } = recordIo(disk);
  const path = join(folder, file);
  const asked = { testPressure, reportLifts: SHELF_LIFTS, pictures: false } as const;
  const entry = isJob(io.realPath(path) ?? path, io) ? buildEntry(file, evaluateJob(file, asked, io, folder)) : null;
  return { entry, queries: queries() };
}
