import type { DisplayUnits } from "../../model/model.ts";
import { joinWords } from "../../sheet/words/text.ts";
import { differenceFromSi, fromSi } from "../../units/convert.ts";
import { defaultDecimals, show } from "../../units/show.ts";
import type { FeatureDistance } from "./distance.ts";
import { FEATURES, type Feature } from "./features.ts";
import type { ShelfEntry } from "./shelf-entry.ts";

const COUNTS = FEATURES.filter(({ name }) => name.endsWith("a cylinder")).length;

type Sized = Feature & { readonly holds: "size" };

type Told = {
  readonly unlike: readonly string[];
  readonly same: readonly string[];
  readonly not_known: readonly string[];
};

/** Why a head is near or far, in words: what is unlike, what weighs most first; what is the same; what only one job knows. */
export function differenceText(
  apart: readonly FeatureDistance[],
  here: ShelfEntry,
  there: ShelfEntry,
  units: DisplayUnits,
): Told {
  const said = apart
    .filter(({ by }) => by !== undefined)
    .toSorted((a, b) => b.share - a.share)
    .map(({ feature, by }) => ({ feature, words: by === 0 ? undefined : unlikeWords(feature, here, there, units) }));
  return {
    unlike: said.flatMap(({ words }) => words ?? []),
    same: said.flatMap(({ feature, words }) => (words === undefined ? [feature.name] : [])),
    not_known: apart.flatMap(({ feature, by }) => (by === undefined ? [unknownWords(feature, here)] : [])),
  };
}

/** All in one sentence: "intake valve 0.30 mm larger; same bore and exhaust pipe; not compared: intake pinch, not measured there". */
export function nearWords({ unlike, same, not_known }: Told): string {
  const told = inFewWords(same);
  const known =
    unlike.length === 0
      ? ["alike in all that is known of both"]
      : [...unlike, ...(told.length > 0 ? [`same ${joinWords(told)}`] : [])];
  return [...known, ...(not_known.length > 0 ? [`not compared: ${not_known.join(", ")}`] : [])].join("; ");
}

/** That nothing is attached to either need not be said; that the valves are as many, once. */
function inFewWords(same: readonly string[]): readonly string[] {
  const counts = same.filter((name) => name.endsWith("a cylinder"));
  const sizes = same.filter((name) => !counts.includes(name) && !name.endsWith("attachment"));
  return counts.length === COUNTS ? [...sizes, "number of valves and ports"] : [...sizes, ...counts];
}

function unknownWords(feature: Feature, here: ShelfEntry): string {
  const missing = feature.holds === "size" && feature.kind !== "pressure" ? "not measured" : "not stated";
  return `${feature.name} ${missing} ${feature.of(here) === undefined ? "here" : "there"}`;
}

/** How the other head differs from this one; nothing where it does not, as far as the table would show. */
function unlikeWords(feature: Feature, here: ShelfEntry, there: ShelfEntry, units: DisplayUnits): string | undefined {
  const [a, b] = [feature.of(here)!, feature.of(there)!];
  if (feature.holds === "word") return wordsOf(feature.name, String(a), String(b), there, units);
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

function wordsOf(name: string, a: string, b: string, there: ShelfEntry, units: DisplayUnits): string {
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
