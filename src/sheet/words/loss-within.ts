import type { Comparison } from "../../figures/figures.ts";
import type { Display } from "../display.ts";
import { averageVerdict } from "./average-change.ts";
import { joinWords } from "./join-words.ts";
import { capital } from "./sentence.ts";
import { claimable } from "./verdict-words.ts";

/** Losses that an average hides: at which of the lifts measured, when the average itself is no loss. */
export function lossWithin(pair: Comparison, display: Display): string | undefined {
  const average = averageVerdict(pair);
  if (average === undefined || isLoss(average)) return undefined;
  const lost = pair.changes.filter(
    ({ verdict, uncertainty_m3_s, interpolated }) => !interpolated && isLoss(claimable(verdict, uncertainty_m3_s)),
  );
  if (lost.length === 0) return undefined;
  const [first, last] = [lost[0], lost.at(-1)].map((change) => change?.lift_m ?? 0) as [number, number];
  // A stretch of lifts, all of them lost, is said by its ends.
  const stretch = pair.changes.filter(({ lift_m, interpolated }) => !interpolated && lift_m >= first && lift_m <= last);
  const lifts =
    lost.length > 2 && stretch.length === lost.length
      ? `from ${display.digits("lift", first)} to ${display.full("lift", last)}`
      : `at ${joinWords(lost.map(({ lift_m }, i) => (i === lost.length - 1 ? display.full : display.digits)("lift", lift_m)))}`;
  const word = lost.every(({ verdict }) => verdict === "clear loss") ? "a clear loss" : "clearly lower";
  return `${capital(pair.side)} ${lifts}: ${word}.`;
}

const isLoss = (verdict: Comparison["changes"][number]["verdict"]): boolean =>
  verdict === "clear loss" || verdict === "clearly lower";
