import { dirname, relative, resolve } from "node:path";
import type { Job } from "../../job/schema/job.ts";
import type { DisplayUnits } from "../../model/model.ts";
import { inlineYaml, type YamlMap } from "../../parse/yaml/stringify-yaml.ts";
import { show } from "../../units/show.ts";
import { differenceText } from "./difference-text.ts";
import { distance } from "./distance.ts";
import { isSound, type ShelfEntry, type SoundEntry } from "./shelf-entry.ts";
import { compareFiles } from "./where.ts";

export type Neighbour = {
  readonly entry: SoundEntry;
  readonly distance: number;
  readonly unlike: readonly string[];
  readonly same: readonly string[];
  /** Features that only one of the jobs states; not counted. */
  readonly not_known: readonly string[];
  readonly compare: CompareLine;
};

/** Finds the nearest heads, ordered by distance, then by the share of features compared, then by file. */
export function findNearest(
  here: ShelfEntry,
  shelf: readonly ShelfEntry[],
  { folder, comparing, units, most }: { folder: string; comparing: ComparingJob; units: DisplayUnits; most: number },
): readonly Neighbour[] {
  const found = shelf
    .filter(isSound)
    .map((entry) => ({ entry, ...distance(here, entry) }))
    .toSorted((a, b) => a.distance - b.distance || b.known - a.known || compareFiles(a.entry, b.entry))
    .slice(0, most);
  const labels = uniqueLabels(
    found.map(({ entry }) => entry),
    units,
  );
  return found.map(({ entry, distance: far, byFeature }, k) => ({
    entry,
    distance: far,
    ...differenceText(byFeature, here, entry, units),
    compare: buildCompareLine(entry, folder, comparing, labels[k]!),
  }));
}

/** Labels for the sheet: the head's name, with its intake valve where two names are equal, and a number where that is equal too. */
function uniqueLabels(entries: readonly SoundEntry[], units: DisplayUnits): readonly string[] {
  const sized = entries.map((entry) => {
    const valve = entry.intake?.valve_diameter_m;
    const alone = entries.filter(({ head }) => head === entry.head).length < 2;
    return alone || valve === undefined
      ? entry.head
      : `${entry.head}, ${show(valve, "length", units.length).replace("\u00a0", " ")} intake valve`;
  });
  return sized.map((label, k) => {
    const before = sized.slice(0, k).filter((one) => one === label).length;
    return before === 0 ? label : `${label} (${before + 1})`;
  });
}

/** The job that others are compared with: its path, the folder it may read, its content. */
type ComparingJob = { readonly path: string; readonly root: string; readonly job: Job };

/** Line to paste under `compare`, or the reason why there is none. */
type CompareLine = { readonly line: string } | { readonly why: string };

/** Builds the line for `compare`. `label` is printed on its sheet: never a ticket or a customer. */
function buildCompareLine(
  entry: SoundEntry,
  folder: string,
  { path, root, job }: ComparingJob,
  label: string,
): CompareLine {
  const there = resolve(folder, entry.file);
  const typed = relative(dirname(path), there).replaceAll("\\", "/");
  if (entry.kind === "product") return { why: "a product, not a measured head" };
  if (entry.may_compare !== "yes") return { why: `its may_compare is \`${entry.may_compare}\`` };
  if (relative(root, there).startsWith("..")) return { why: "outside the folder of this job's shop.yaml" };
  if (job.compare?.some((one) => resolve(dirname(path), one.job) === there)) return { why: "compared already" };
  const stage: YamlMap = entry.stage === undefined ? {} : { stage: entry.stage };
  return { line: `- ${inlineYaml({ job: typed, ...stage, label })}` };
}
