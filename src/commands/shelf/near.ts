import { relative, resolve } from "node:path";
import { visibleText } from "../../diagnostics/visible.ts";
import { type DisplayUnits, SIDES } from "../../model/model.ts";
import { evaluateJob } from "../../pipeline/evaluate.ts";
import { show } from "../../units/show.ts";
import type { Environment, ExitCode } from "../environment.ts";
import { UsageError } from "../environment.ts";
import { displayPath } from "../find-jobs.ts";
import { fitLines } from "../fit-width.ts";
import { report } from "../report.ts";
import { buildEntry, SHELF_LIFTS } from "./build-entry.ts";
import { formatDifferences } from "./difference-text.ts";
import type { Neighbour } from "./nearest.ts";
import { findNearest } from "./nearest.ts";
import { sideCells } from "./shelf-cells.ts";
import type { SoundEntry } from "./shelf-entry.ts";
import { isSound, type ShelfEntry } from "./shelf-entry.ts";
import type { ShelfDisplay } from "./shelf-shop.ts";

type Shown = ShelfDisplay & { readonly folder: string };
type Options = { readonly form: "text" | "json" | "csv"; readonly most: number };

/** Prints the heads most alike to a job, which need not be on this shelf. */
export function showNearest(
  typed: string,
  entries: readonly ShelfEntry[],
  { folder, units, testPressure }: Shown,
  { form, most }: Options,
  environment: Environment,
): ExitCode {
  if (form === "csv") throw new UsageError("--near has no --csv: it is words, or --json");
  const path = resolve(environment.cwd, typed);
  const evaluation = evaluateJob(
    typed,
    { testPressure, reportLifts: SHELF_LIFTS, pictures: false },
    environment.io,
    environment.cwd,
  );
  const here = buildEntry(relative(folder, path).replaceAll("\\", "/"), evaluation);
  if (!evaluation.drawable || !isSound(here)) {
    report(evaluation.diagnostics, evaluation.sources, environment);
    return 1;
  }
  const { root, job } = evaluation.drawable.project;
  const real = (file: string) => environment.io.realPath(resolve(folder, file)) ?? file;
  const others = entries.filter(({ file }) => real(file) !== (environment.io.realPath(path) ?? path));
  const found = findNearest(here, others, { folder, comparing: { path, root, job }, units, most });
  environment.out(
    form === "json"
      ? `${JSON.stringify({ reference: { test_pressure_Pa: testPressure }, job: here, near: found.map(({ entry, ...one }) => ({ ...one, job: entry })) }, null, 2)}\n`
      : formatNearest(here, displayPath(environment.cwd, path), found, units, environment.width),
  );
  return 0;
}

/** Formats the nearest heads with their differences, then the lines to paste into the job file. */
function formatNearest(
  here: SoundEntry,
  path: string,
  found: readonly Neighbour[],
  units: DisplayUnits,
  width: number | undefined,
): string {
  const blocks = found.map(({ entry, distance, ...near }, k) =>
    [
      `${k + 1}. ${entry.number}  ${entry.head}, ${entry.stage ?? entry.kind}  (${entry.file}), distance ${distance.toFixed(2)}`,
      ...flowLines(entry, units),
      `   ${formatDifferences(near)}`,
      ...("why" in near.compare ? [`   not to be compared: ${near.compare.why}`] : []),
    ].map(visibleText),
  );
  const lines = found.flatMap(({ compare }) => ("line" in compare ? [`  ${visibleText(compare.line)}`] : []));
  const paste = lines.length > 0 ? ["", `to compare, paste into ${visibleText(path)}:`, "compare:", ...lines] : [];
  const head = visibleText(`most alike to ${here.number} ${here.head}, ${here.stage ?? here.kind}`);
  const scale = "distance: 0 is alike, 1 another size throughout; by valves, ports, sizes and how they were flowed";
  return `${[fitLines([head, scale, "", ...blocks.flat()].join("\n"), width), ...paste].join("\n")}\n`;
}

function flowLines(entry: SoundEntry, units: DisplayUnits): string[] {
  const parts = SIDES.flatMap((side) => {
    const cells = sideCells(entry, side, units);
    const peak = entry[side]?.peak;
    if (!cells) return [];
    return [`${side} ${cells.valve}${peak ? ` peak ${show(peak.flow_m3_s, "flow", units.flow)}` : ""}`];
  });
  return parts.length === 0 ? [] : [`   ${parts.join(", ")}`];
}
