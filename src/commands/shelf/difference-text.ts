import type { DisplayUnits } from "../../model/model.ts";
import { joinWords } from "../../sheet/words/text.ts";
import { differenceFromSi, fromSi } from "../../units/convert.ts";
import { defaultDecimals, show } from "../../units/show.ts";
import type { FeatureDistance } from "./distance.ts";
import { FEATURES, type Feature } from "./features.ts";
import type { ShelfEntry } from "./shelf-entry.ts";

const COUNTS = FEATURES.filter(({ name }) => name.endsWith("a cylinder")).length;

type Sized = Feature & { readonly holds: "size" };

type Differences = {
  readonly unlike: readonly string[];
  readonly same: readonly string[];
  readonly not_known: readonly string[];
};

/** Describes what differs, the largest share first, what is equal, and what only one job states. */
export function differenceText(
  byFeature: readonly FeatureDistance[],
  here: ShelfEntry,
  there: ShelfEntry,
  units: DisplayUnits,
): Differences {
  const described = byFeature
    .filter(({ by }) => by !== undefined)
    .toSorted((a, b) => b.share - a.share)
    .map(({ feature, by }) => ({ feature, words: by === 0 ? undefined : unlikeWords(feature, here, there, units) }));
  return {
    unlike: described.flatMap(({ words }) => words ?? []),
    same: described.flatMap(({ feature, words }) => (words === undefined ? [feature.name] : [])),
    not_known: byFeature.flatMap(({ feature, by }) => (by === undefined ? [unknownWords(feature, here, there)] : [])),
  };
}

/** Joins the differences: "intake valve 0.30 mm larger; same bore and exhaust pipe; not compared: intake pinch, not measured there". */
export function formatDifferences({ unlike, same, not_known }: Differences): string {
  const shortened = shortenSame(same);
  const parts =
    unlike.length === 0
      ? ["alike in all that is known of both"]
      : [...unlike, ...(shortened.length > 0 ? [`same ${joinWords(shortened)}`] : [])];
  return [...parts, ...(not_known.length > 0 ? [`not compared: ${not_known.join(", ")}`] : [])].join("; ");
}

/** Leaves out equal attachments, and merges equal numbers of valves and ports. */
function shortenSame(same: readonly string[]): readonly string[] {
  const counts = same.filter((name) => name.endsWith("a cylinder"));
  const sizes = same.filter((name) => !counts.includes(name) && !name.endsWith("attachment"));
  return counts.length === COUNTS ? [...sizes, "number of valves and ports"] : [...sizes, ...counts];
}

/** A product is compiled from jobs: what it lacks was not left unmeasured, its page gives no one value of it. */
function unknownWords(feature: Feature, here: ShelfEntry, there: ShelfEntry): string {
  const [where, entry] = feature.of(here) === undefined ? ["here", here] : ["there", there];
  if (entry.kind === "product") return `${feature.name} not given by the product's page`;
  const missing = feature.holds === "size" && feature.kind !== "pressure" ? "not measured" : "not stated";
  return `${feature.name} ${missing} ${where}`;
}

/** Difference of the other head in one feature; undefined if it rounds to none in the table. */
function unlikeWords(feature: Feature, here: ShelfEntry, there: ShelfEntry, units: DisplayUnits): string | undefined {
  const [a, b] = [feature.of(here)!, feature.of(there)!];
  if (feature.holds === "word") return conditionWords(feature.name, String(a), String(b), there, units);
  return sizeWords(feature, a as number, b as number, units);
}

function sizeWords({ name, kind }: Sized, a: number, b: number, units: DisplayUnits): string | undefined {
  if (kind === "count") return a === b ? undefined : `${b} ${name} against ${a}`;
  const unit = units[kind];
  const places = defaultDecimals(kind, unit);
  if (kind === "pressure") {
    const [here, there] = [show(a, kind, unit), show(b, kind, unit)];
    return here === there ? undefined : `${name} ${there} against ${here}`;
  }
  const difference = Math.abs(differenceFromSi(b - a, kind, unit));
  if (Number(difference.toFixed(places)) === 0) return undefined;
  return `${name} ${show(Math.abs(b - a), kind, unit)} ${b > a ? "larger" : "smaller"}`;
}

function conditionWords(name: string, a: string, b: string, there: ShelfEntry, units: DisplayUnits): string {
  if (name !== "exhaust pipe") return `${name} ${b} against ${a}`;
  if (b === "none") return "without the exhaust pipe";
  const pipe = there.conditions?.exhaust_pipe;
  const sizes = [pipe?.diameter_m, pipe?.length_m].map((si) =>
    si === undefined
      ? "?"
      : String(Number(fromSi(si, "length", units.length).toFixed(defaultDecimals("length", units.length)))),
  );
  return `${a === "none" ? "with an exhaust pipe" : "another exhaust pipe"} ${sizes.join(" by ")} ${units.length}`;
}
