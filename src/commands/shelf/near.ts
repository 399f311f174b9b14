import { relative, resolve } from "node:path";
import { evaluateJob } from "../../pipeline/evaluate.ts";
import type { Environment, ExitCode } from "../environment.ts";
import { shortest } from "../find-jobs.ts";
import { report } from "../report.ts";
import { UsageError } from "../usage-error.ts";
import { buildEntry } from "./build-entry.ts";
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
  world: Environment,
): ExitCode {
  if (form === "csv") throw new UsageError("--near has no --csv: it is words, or --json");
  const path = resolve(world.cwd, typed);
  const worked = evaluateJob(typed, { testPressure, reportLifts: SHELF_LIFTS, pictures: false }, world.io, world.cwd);
  const here = buildEntry(relative(folder, path).replaceAll("\\", "/"), worked);
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
