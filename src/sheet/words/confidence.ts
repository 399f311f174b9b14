import type { Budget, Comparison, SideFigures, UncertaintySources } from "../../figures/figures.ts";
import type { Bench } from "../../model/model.ts";
import { formatNumber } from "../../units/show.ts";
import { type Display, formatPercent } from "../display.ts";
import { presentItems } from "../section.ts";
import { averageVerdict } from "./average-change.ts";
import { capitalize, joinWords } from "./text.ts";
import { mayPrint } from "./verdicts.ts";

/** A side with the sources of its ±. */
type SourcesOfSide = { readonly side: string; readonly sources: SideFigures["sources"] };

/** What the ± rests on, source by source; what was not stated says so. Without repeatability there is no ± to explain. */
export function confidenceWords(
  bench: Bench,
  sides: readonly SourcesOfSide[],
  display: Display,
  isCompared: boolean,
): readonly string[] {
  const isKnown = sides.some(({ sources }) => sources?.repeatability);
  return presentItems<string>([
    isKnown && "Each ± holds about 95 times in 100, by Student's t.",
    ...perSide(sides, (sources) => repeatabilitySource(bench, sources)),
    ...(isKnown ? perSide(sides, remountingSource) : []),
    bench.liftSettingIsDefault
      ? `How exactly lift was set was not stated: taken as ±\u00a0${display.full("length", bench.liftSetting)}.`
      : `Lift was set to ±\u00a0${display.full("length", bench.liftSetting)}.`,
    accuracyWords(bench, isCompared),
    checkPlateWords(bench),
  ]);
}

/** Two readings of one bench and range share its error: it cancels in their ratio, and counts as its share of their difference. */
function accuracyWords({ accuracy }: Bench, isCompared: boolean): string {
  if (accuracy === undefined)
    return `Bench accuracy was not stated${isCompared ? "; in a percentage of change on one bench and range it cancels" : ""}.`;
  const size = `±\u00a0${formatPercent(accuracy)}`;
  return isCompared
    ? `Bench accuracy is ${size} of each reading. In a change on one bench and range it cancels, but for ${size} of the difference.`
    : `Bench accuracy, ${size}, is part of each ±.`;
}

/** A sentence around a ± at k = 2, given as a standard uncertainty. */
type Source = { readonly lead: string; readonly ratio?: number; readonly tail: string };

/** Says a thing once for both sides, with two numbers where they differ; of each side by name where the sources do. */
function perSide(
  sides: readonly SourcesOfSide[],
  find: (sources: SideFigures["sources"]) => Source | undefined,
): readonly string[] {
  const found = sides.flatMap(({ side, sources }) => {
    const source = find(sources);
    return source ? [{ side, ...source, size: plusMinus(source.ratio) }] : [];
  });
  const [first] = found;
  if (!first) return [];
  if (found.some(({ lead, tail }) => lead !== first.lead || tail !== first.tail))
    return found.map(({ side, lead, size, tail }) => `${capitalize(side)}: ${lead}${size}${tail}`);
  const alike = found.every(({ size }) => size === first.size);
  const sizes = alike ? first.size : joinWords(found.map(({ side, size }) => `${size} (${side})`));
  return [`${first.lead}${sizes}${first.tail}`];
}

const plusMinus = (ratio: number | undefined) => (ratio === undefined ? "" : `±\u00a0${formatPercent(2 * ratio)}`);

function repeatabilitySource({ repeatability: stated }: Bench, sources: SideFigures["sources"]): Source {
  const found = sources?.repeatability;
  switch (found?.from) {
    case "repeats":
      return { lead: "Repeatability, from our own repeats of these readings: ", ratio: found.ratio, tail: "." };
    case "mounts":
      return { lead: "Repeatability, from flowing it on several mounts: ", ratio: found.ratio, tail: "." };
    case "stated":
      return stated?.kind === "range"
        ? {
            lead: `Repeatability, as stated: ${stated.of} repeats lay within ${formatPercent(stated.spread)} of each other.`,
            tail: "",
          }
        : { lead: "Repeatability, as stated: ", ratio: found.ratio, tail: "." };
    default:
      return { lead: "Repeatability was neither measured nor stated, so no change is claimed.", tail: "" };
  }
}

function remountingSource(sources: SideFigures["sources"]): Source | undefined {
  if (!sources) return undefined;
  const { from, ratio } = sources.remounting;
  return { lead: "Taking the head off and on adds ", ratio, tail: `${REMOUNTING[from]}.` };
}

const REMOUNTING: Record<UncertaintySources["remounting"]["from"], string> = {
  own: ", from our own mounts",
  stated: ", as stated",
  allowance: ": allowed for, not measured here",
};

function checkPlateWords({ checkPlate: plate }: Bench): string | undefined {
  const off = (reading: number | undefined) =>
    plate === undefined || reading === undefined
      ? undefined
      : `${formatNumber((reading / plate.nominal - 1) * 100, 1)}`;
  const [before, after] = [off(plate?.before), off(plate?.after)];
  return before === undefined || after === undefined
    ? undefined
    : `The check plate read ${before} % off before and ${after} % off after.`;
}

const PARTS: readonly (readonly [keyof Budget["parts"], string])[] = [
  ["remounting", "re-mounting"],
  ["repeats", "repeats"],
  ["lift_setting", "lift setting"],
  ["resolution", "resolution"],
  ["accuracy", "bench accuracy"],
  ["leakage", "leakage"],
  ["conversion", "conversion of pressure"],
];

/** What the ± of the average changes is made of, for the engine builder: the largest part first. */
export function budgetWords(pairs: readonly Comparison[]): string | undefined {
  const said = pairs.flatMap((pair) => {
    const { side, mean_change_budget: budget, mean_change_uncertainty_ratio: u } = pair;
    return budget && mayPrint(averageVerdict(pair), u, pair) ? [{ side, parts: partWords(budget) }] : [];
  });
  if (said.length === 0) return undefined;
  const alike = said.length > 1 && new Set(said.map(({ parts }) => parts)).size === 1;
  const sentences = alike
    ? [`Of the ± of the average changes ${said[0]!.parts}.`]
    : said.map(({ side, parts }) => `Of the ± of the average ${side} change ${parts}.`);
  return `${sentences.join(" ")} These are shares of its square.`;
}

/** Shares of a budget's parts: "73 % is re-mounting, 14 % repeats, 13 % lift setting". */
function partWords({ parts }: Budget): string {
  const shares = PARTS.map(([key, name]) => ({ name, share: parts[key] ?? 0 }))
    .filter(({ share }) => share >= LEAST_SHARE)
    .toSorted((a, b) => b.share - a.share)
    .slice(0, MOST_PARTS);
  return shares.map(({ name, share }, i) => `${formatPercent(share, 0)} ${i === 0 ? "is " : ""}${name}`).join(", ");
}

/** A smaller share is not worth a word. */
const LEAST_SHARE = 0.01;
const MOST_PARTS = 4;
