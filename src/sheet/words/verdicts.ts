import type { Comparison, Verdict } from "../../figures/figures.ts";
import type { VerdictMark } from "../content.ts";
import { type Context, endStages } from "../context.ts";
import { type Display, formatPercent } from "../display.ts";
import { capitalize, joinWords } from "./text.ts";

type VerdictWords = { readonly text: string; readonly mark: VerdictMark };

const WORDS: Record<Verdict, VerdictWords> = {
  "clear gain": { text: "clear gain", mark: "up" },
  "clear loss": { text: "clear loss", mark: "down" },
  "clearly higher": { text: "clearly higher", mark: "up" },
  "clearly lower": { text: "clearly lower", mark: "down" },
  "within repeatability": { text: "within repeatability", mark: "level" },
  "too few repeats": { text: "too few repeats to say", mark: "unknown" },
};

const WITHHELD: Record<NonNullable<Comparison["verdict_withheld"]>, VerdictWords> = {
  conditions: { text: "no verdict, conditions differ", mark: "unknown" },
  "check plate": { text: "no verdict, check plate off", mark: "unknown" },
  "two benches": { text: "no verdict, two benches", mark: "unknown" },
  "two ranges": { text: "no verdict, two ranges", mark: "unknown" },
  "flowed once": { text: "flowed once each time: not judged", mark: "unknown" },
};

/** A verdict as printed, and the shape drawn beside it; or why every verdict is withheld. */
export const verdictWords = (
  verdict: Verdict | undefined,
  pair?: Pick<Comparison, "verdict_withheld">,
): VerdictWords => (pair?.verdict_withheld ? WITHHELD[pair.verdict_withheld] : WORDS[verdict ?? "too few repeats"]);

/** The verdict that may be claimed: none for a change without its ±, or whose verdict is withheld. */
export const claimableVerdict = (verdict: Verdict | undefined, uncertainty: number | undefined): Verdict =>
  uncertainty === undefined || verdict === undefined ? "too few repeats" : verdict;

/** Whether a verdict says that something changed. */
export const isClear = (verdict: Verdict | undefined): boolean =>
  verdict !== undefined && verdict !== "within repeatability" && verdict !== "too few repeats";

/** Whether a number may be printed for a change: never where repeats are too few to say. */
export const mayPrint = (verdict: Verdict | undefined, uncertainty: number | undefined): uncertainty is number =>
  claimableVerdict(verdict, uncertainty) !== "too few repeats";

/** The verdict on the average change; nothing when there is none. */
export const averageVerdict = (
  pair: Pick<Comparison, "mean_change_ratio" | "mean_change_verdict" | "mean_change_uncertainty_ratio">,
): Verdict | undefined =>
  pair.mean_change_ratio === undefined
    ? undefined
    : claimableVerdict(pair.mean_change_verdict ?? "too few repeats", pair.mean_change_uncertainty_ratio);

const WHY_WITHHELD: Record<NonNullable<Comparison["verdict_withheld"]>, string> = {
  conditions: "conditions differ",
  "check plate": "the bench's check plate was more than 2 % off",
  "two benches": "flowed on two benches whose accuracy is not stated",
  "two ranges": "read on two ranges of a bench whose accuracy is not stated",
  "flowed once": "flowed once each time",
};

/** Average change of one port, stage to stage, as a sentence for anyone. */
export function averageChangeWords(pair: Comparison): string | undefined {
  const verdict = averageVerdict(pair);
  if (verdict === undefined) return undefined;
  const side = capitalize(pair.side);
  if (pair.verdict_withheld) return `${side}: ${WHY_WITHHELD[pair.verdict_withheld]}, so no verdict is given.`;
  const change = pair.mean_change_ratio as number;
  const clear = (word: string) =>
    `${side} flow: ${formatPercent(Math.abs(change))} ${word} (±\u00a0${formatPercent(pair.mean_change_uncertainty_ratio as number)}) on average, a ${verdict}.`;
  switch (verdict) {
    case "clear gain":
      return clear("up");
    case "clear loss":
      return clear("down");
    case "within repeatability":
      return `${side} flow did not clearly change: the average is within repeatability.`;
    case "too few repeats":
      return `${side} flow has too few repeats to say whether it changed.`;
    default:
      return `${side} flow is ${verdict} on average.`;
  }
}

/** Losses that an average hides: at which of the lifts measured, when the average itself is no loss. */
export function hiddenLossWords(pair: Comparison, display: Display): string | undefined {
  const average = averageVerdict(pair);
  if (average === undefined || isLoss(average)) return undefined;
  const lost = pair.changes.filter(
    ({ verdict, uncertainty_m3_s, interpolated }) =>
      !interpolated && isLoss(claimableVerdict(verdict, uncertainty_m3_s)),
  );
  if (lost.length === 0) return undefined;
  const [first, last] = [lost[0], lost.at(-1)].map((change) => change?.lift_m ?? 0) as [number, number];
  // Consecutive lifts that all lost are named by the ends of their range.
  const stretch = pair.changes.filter(({ lift_m, interpolated }) => !interpolated && lift_m >= first && lift_m <= last);
  const lifts =
    lost.length > 2 && stretch.length === lost.length
      ? `from ${display.digits("lift", first)} to ${display.full("lift", last)}`
      : `at ${joinWords(lost.map(({ lift_m }, i) => (i === lost.length - 1 ? display.full : display.digits)("lift", lift_m)))}`;
  const word = lost.every(({ verdict }) => verdict === "clear loss") ? "a clear loss" : "clearly lower";
  return `${capitalize(pair.side)} ${lifts}: ${word}.`;
}

const isLoss = (verdict: Verdict | undefined): boolean => verdict === "clear loss" || verdict === "clearly lower";

/**
 * The head left the bench for the work. Where a change is claimed and neither a stated ±, nor sweeps with the head off and on,
 * nor a baseline measured again tells what that adds, the sheet says so where it claims.
 */
export function remountWords(context: Context, pairs: readonly Comparison[]): readonly string[] {
  const claimed = pairs.some(
    (pair) => pair.floor_ratio === undefined && isClear(averageVerdict(pair) ?? "too few repeats"),
  );
  const { first, last } = endStages(context);
  const known = [first, last].every((one) => {
    const set = one?.stage.sets[0];
    if (set === undefined) return true;
    const mounts = new Set(set.runs.map(({ mount }) => mount));
    return set.bench.remount !== undefined || (set.bench.repeatability === undefined && mounts.size > 1);
  });
  return claimed && !known ? ["The ± leaves out what taking the head off and on adds: it was not stated."] : [];
}
