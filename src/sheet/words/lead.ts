import type { Comparison } from "../../figures/figures.ts";
import { isClear } from "../../model/verdict.ts";
import { sameLift } from "../../units/same-lift.ts";
import { leadingPoint } from "../compared.ts";
import { type Context, camLift, endStages, overallComparison } from "../context.ts";
import { formatPercent } from "../display.ts";
import { averageChangeWords, averageVerdict, formatBound } from "./average-change.ts";
import { differenceWords } from "./conditions.ts";
import { headlineDecimals, headlineNumber } from "./headline-number.ts";
import { capitalize, joinWords } from "./text.ts";
import { claimableVerdict } from "./verdicts.ts";

/** Decimals of a change in a sentence. */
const PLACES = 1;

/** What changed in one or two sentences, the worst news first; undefined where two stages were not compared. */
export function changeLead(context: Context): string | undefined {
  const pairs = context.sides.flatMap((side) => overallComparison(context, side) ?? []);
  const said = pairs.filter((pair) => averageVerdict(pair) !== undefined || pair.verdict_withheld || pair.not_compared);
  if (said.length === 0) return undefined;
  const withheld = said.filter(
    (pair) => pair.verdict_withheld || pair.not_compared || averageVerdict(pair) === undefined,
  );
  if (withheld.length > 0)
    return sentences([
      clearWords(context, without(said, withheld)),
      withinWords(without(said, withheld)),
      withheldWords(withheld),
    ]);
  return sentences([clearWords(context, said), withinWords(said), fewWords(said)]);
}

const without = (all: readonly Comparison[], some: readonly Comparison[]) => all.filter((pair) => !some.includes(pair));
const sentences = (list: readonly (string | undefined)[]): string => list.filter(Boolean).join(" ");

type Clear = { readonly pair: Comparison; readonly up: boolean; readonly word: string };

/** Clear changes of the average: both sides in one sentence where they agree, else the loss first. */
function clearWords(context: Context, pairs: readonly Comparison[]): string | undefined {
  const clear = pairs.flatMap((pair): Clear[] => {
    const verdict = averageVerdict(pair);
    if (verdict === undefined || !isClear(verdict)) return [];
    return [{ pair, up: (pair.mean_change_ratio as number) > 0, word: verdict }];
  });
  const [first, second] = clear.toSorted((a, b) => Number(a.up) - Number(b.up));
  if (!first) return undefined;
  const where = rangeWords(context, clear);
  const all = pairs.length === clear.length;
  if (!second) return `${capitalize(first.pair.side)} flow is ${amount(first)} ${where}, ${article(first.word)}.`;
  if (first.up !== second.up)
    return `${capitalize(first.pair.side)} flow is ${amount(first)}, ${article(first.word)}, and ${second.pair.side} flow ${amount(second)}, ${article(second.word)}, ${where}.`;
  const verdict = all ? ` Both are ${plural(first.word)}.` : "";
  const [one, other] = [clear[0] as Clear, clear[1] as Clear];
  return `${capitalize(one.pair.side)} flow is ${amount(one)} and ${other.pair.side} flow ${size(other)} ${where}.${verdict}`;
}

const size = ({ pair }: Clear): string => {
  const plusMinus = formatPercent(pair.mean_change_uncertainty_ratio as number, PLACES).replace(/\s%$/u, "");
  return `${formatPercent(Math.abs(pair.mean_change_ratio as number), PLACES)} (±\u00a0${plusMinus})`;
};
const amount = (one: Clear): string => `${one.up ? "up" : "down"} ${size(one)}`;
const article = (word: string): string => (word.startsWith("clearly") ? word : `a ${word}`);
const plural = (word: string): string =>
  word.startsWith("clearly") ? word : `${word}${word.endsWith("s") ? "es" : "s"}`;

/** Up to where the average reaches. */
function rangeWords(context: Context, clear: readonly Clear[]): string {
  const toCam = clear.every(({ pair }) => {
    const cam = camLift(context, pair.side);
    return cam !== undefined && pair.to_lift_m !== undefined && sameLift(cam, pair.to_lift_m);
  });
  return toCam ? "on average up to your cam's lift" : "on average over the lifts read";
}

/** How small a change must be that the bench could not see. Never "no change". */
function withinWords(pairs: readonly Comparison[]): string | undefined {
  const within = pairs.filter((pair) => averageVerdict(pair) === "within repeatability");
  if (within.length === 0) return undefined;
  const bounds = within.map((pair) => ({ pair, bound: changeBound(pair) }));
  const [first, second] = bounds;
  const everywhere = within.every(isWithinEverywhere);
  const end = everywhere ? "." : "; single lifts changed clearly.";
  if (first && second)
    return `On average any change of flow is smaller than ${formatBound(first.bound)} on the ${first.pair.side} and ${formatBound(second.bound)} on the ${second.pair.side}${end}`;
  return first
    ? `On average any change of ${first.pair.side} flow is smaller than ${formatBound(first.bound)}${end}`
    : undefined;
}

/** The largest change of the average that the readings leave open. */
const changeBound = ({ bound_ratio, mean_change_ratio = 0, mean_change_uncertainty_ratio = 0 }: Comparison): number =>
  bound_ratio ?? Math.abs(mean_change_ratio) + mean_change_uncertainty_ratio;

/** Whether the average and every lift are within their ±: the two curves are one. */
export const isWithinEverywhere = (pair: Comparison): boolean =>
  averageVerdict(pair) === "within repeatability" &&
  pair.changes.every(
    ({ verdict, uncertainty_m3_s }) =>
      verdict !== undefined && claimableVerdict(verdict, uncertainty_m3_s) === "within repeatability",
  );

function fewWords(pairs: readonly Comparison[]): string | undefined {
  const few = pairs.filter((pair) => averageVerdict(pair) === "too few repeats");
  if (few.length === 0) return undefined;
  const what =
    few.length === pairs.length && pairs.length > 1
      ? "Flow"
      : capitalize(joinWords(few.map(({ side }) => `${side} flow`)));
  return `${what} has too few repeats to say whether it changed.`;
}

/** Why nothing is claimed: one sentence without a number. */
function withheldWords(pairs: readonly Comparison[]): string {
  const unlike = differenceWords(pairs);
  if (unlike.length > 0) return unlike.join(" ");
  return [...new Set(pairs.flatMap((pair) => averageChangeWords(pair) ?? []))].join(" ");
}

/** One stage: what was measured, at which lift, and that no metal was cut where no work is listed. */
export function measuredLead(context: Context): string | undefined {
  const { display, model } = context;
  const { last } = endStages(context);
  if (!last) return undefined;
  const sides = context.sides.flatMap((side) => {
    const point = leadingPoint(context, side);
    return point ? [{ side, point }] : [];
  });
  const [first, second] = sides;
  if (!first) return undefined;
  const decimals = headlineDecimals(
    context,
    sides.map(({ point }) => point),
  );
  const flow = ({ point }: typeof first, unit: boolean) => {
    const value = `${headlineNumber(context, point.flow, decimals)}${unit ? `\u00a0${display.unit("flow")}` : ""}`;
    const { uncertainty: plusMinus } = point;
    return plusMinus === undefined ? value : `${value} (±\u00a0${display.digits("flow", plusMinus)})`;
  };
  const at = ({ point }: typeof first) => ` at ${display.full("lift", point.lift)} of lift`;
  const alike = second !== undefined && sameLift(first.point.lift, second.point.lift);
  const said = second
    ? `the ${first.side} flows ${flow(first, true)}${alike ? "" : at(first)} and the ${second.side} ${flow(second, false)}${at(second)}`
    : `the ${first.side} flows ${flow(first, true)}${at(first)}`;
  const uncut = model.text.work.length === 0 ? " No metal was cut." : "";
  return `Measured ${last.name.toLowerCase()}: ${said}.${uncut}`;
}

/** The same words on each sheet, for a reader who has never seen a flow bench. */
export const WHAT_IS_MEANT =
  "Flow: the air one port passes at a fixed suction. Lift: how far the valve stands open. ±: what a repeat on our bench may differ by.";
