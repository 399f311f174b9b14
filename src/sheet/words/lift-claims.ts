import type { ChangeFigures, Comparison, Verdict } from "../../figures/figures.ts";
import { isClear } from "../../model/verdict.ts";
import { sameLift } from "../../units/same-lift.ts";
import type { Display } from "../display.ts";
import { averageVerdict } from "./average-change.ts";
import { capitalize, joinWords } from "./text.ts";
import { claimableVerdict, isLoss, type VerdictWords, verdictWords } from "./verdicts.ts";

/** Losses that an average hides: at which of the lifts measured, when the average itself is no loss. */
export function hiddenLossWords(pair: Comparison, display: Display): string | undefined {
  const average = averageVerdict(pair);
  if (average === undefined || isLoss(average)) return undefined;
  const lost = measuredChanges(pair).filter((change) => isLoss(claimOf(change)));
  if (lost.length === 0) return undefined;
  const word = lost.every(({ verdict }) => verdict === "clear loss") ? "a clear loss" : "clearly lower";
  return `${capitalize(pair.side)} ${rangeWords(lost, pair, display)}: ${word}.`;
}

/** Where a head is clearly higher and where clearly lower than another: only where it is both. */
export function crossingWords(pair: Comparison, display: Display): string | undefined {
  const runs: ChangeFigures[][] = [];
  for (const change of measuredChanges(pair).filter((one) => isClear(claimOf(one)))) {
    const run = runs.at(-1);
    if (run && run[0]!.change_m3_s > 0 === change.change_m3_s > 0) run.push(change);
    else runs.push([change]);
  }
  if (runs.length < 2) return undefined;
  const said = runs.map((run) => {
    const word = run[0]!.change_m3_s > 0 ? "clearly higher" : "clearly lower";
    return `${word} ${rangeWords(run, pair, display, true)}`;
  });
  return `${capitalize(pair.side)}: ${said.join(", ")}.`;
}

/** Whether a change is beyond its ±, and above the floor, without being claimed. */
export const isUnclaimed = (
  { change_m3_s: change, change_ratio: ratio, uncertainty_m3_s: u, verdict }: Omit<ChangeFigures, "lift_m">,
  { floor_ratio: floor = 0 }: Pick<Comparison, "floor_ratio">,
): boolean => verdict === "within repeatability" && u !== undefined && Math.abs(change) > u && Math.abs(ratio) > floor;

/** The verdict at a lift that stands without the note of `unclaimedWords`: beyond its ± nothing is within it. */
export const loneVerdictWords = (
  { change, verdict }: { readonly change?: Omit<ChangeFigures, "lift_m">; readonly verdict?: Verdict },
  pair: Comparison | undefined,
): VerdictWords =>
  change && pair && isUnclaimed(change, pair) ? { text: "not claimed", mark: "unknown" } : verdictWords(verdict, pair);

/** Lifts whose change is beyond its ± without being claimed, and why. */
export function unclaimedWords(pair: Comparison, changes: readonly ChangeFigures[]): string | undefined {
  const beyond = changes.filter((change) => isUnclaimed(change, pair));
  const read = beyond.filter(({ interpolated }) => !interpolated);
  const between = beyond.filter(({ interpolated }) => interpolated);
  const side = capitalize(pair.side);
  const said = [
    ...(read.length > 0 ? [`${side}: ${countWords(read)}; of many, one may be so by chance.`] : []),
    ...(between.length > 0
      ? [`${side}, between readings: ${countWords(between)}; not between two clear changes.`]
      : []),
  ];
  return said.length === 0 ? undefined : said.join(" ");
}

const countWords = ({ length }: readonly unknown[]): string =>
  length === 1 ? "1 lift beyond its ± is not claimed" : `${length} lifts beyond their ± are not claimed`;

/** The changes at lifts that both measured. */
export const measuredChanges = ({ changes }: Comparison) => changes.filter(({ interpolated }) => !interpolated);
const claimOf = ({ verdict, uncertainty_m3_s }: ChangeFigures) => claimableVerdict(verdict, uncertainty_m3_s);

/**
 * Lifts in words: the ends of three or more that are neighbours among those measured, else each. With `open` a range that begins
 * with the lowest lift measured, or ends with the highest, has one end.
 */
function rangeWords(some: readonly ChangeFigures[], pair: Comparison, display: Display, open = false): string {
  const all = measuredChanges(pair);
  const [first, last] = [some[0]!.lift_m, some.at(-1)!.lift_m];
  const unbroken = all.filter(({ lift_m }) => lift_m >= first && lift_m <= last).length === some.length;
  const full = (lift: number) => display.full("lift", lift);
  if (unbroken && open && sameLift(first, all[0]!.lift_m)) return `up to ${full(last)}`;
  if (unbroken && open && sameLift(last, all.at(-1)!.lift_m)) return `from ${full(first)}`;
  if (unbroken && some.length > 2) return `from ${display.digits("lift", first)} to ${full(last)}`;
  const each = some.map(({ lift_m }, i) => (i === some.length - 1 ? display.full : display.digits)("lift", lift_m));
  return `at ${joinWords(each)}`;
}
