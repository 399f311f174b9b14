import { relative, resolve } from "node:path";
import { workOut } from "../../pipeline/evaluate.ts";
import type { ExitCode, World } from "../environment.ts";
import { shortest } from "../find-jobs.ts";
import { report } from "../report.ts";
import { WrongUse } from "../usage-error.ts";
import { entryOf } from "./build-entry.ts";
import { SHELF_LIFTS } from "./evaluate-file.ts";
import { nearText } from "./near-text.ts";
import { nearest } from "./nearest.ts";
import { isSound, type ShelfEntry } from "./shelf-entry.ts";
import type { ShownAs } from "./shelf-shop.ts";

type Shown = ShownAs & { readonly folder: string };
type Options = { readonly form: "text" | "json" | "csv"; readonly most: number };

/** The heads most alike to a job, whether that one stands on this shelf or not. */
export function near(
  typed: string,
  entries: readonly ShelfEntry[],
  { folder, units, testPressure }: Shown,
  { form, most }: Options,
  world: World,
): ExitCode {
  if (form === "csv") throw new WrongUse("--near has no --csv: it is words, or --json");
  const path = resolve(world.cwd, typed);
  const worked = workOut(typed, { testPressure, reportLifts: SHELF_LIFTS, pictures: false }, world.io, world.cwd);
  const here = entryOf(relative(folder, path).replaceAll("\\", "/"), worked);
  if (!worked.drawable || !isSound(here)) {
    report(worked.diagnostics, worked.sources, world);
    return 1;
  }
  const { root, job } = worked.drawable.project;
  const real = (file: string) => world.io.realPath(resolve(folder, file)) ?? file;
  const others = entries.filter(({ file }) => real(file) !== (world.io.realPath(path) ?? path));
  const found = nearest(here, others, { folder, asking: { path, root, job }, units, most });
  world.out(
    form === "json"
      ? `${JSON.stringify({ reference: { test_pressure_Pa: testPressure }, job: here, near: found.map(({ entry, ...one }) => ({ ...one, job: entry })) }, null, 2)}\n`
      : nearText(here, shortest(world.cwd, path), found, units),
  );
  return 0;
}
