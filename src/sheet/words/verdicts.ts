import type { Comparison, Verdict } from "../../figures/figures.ts";
import type { VerdictMark } from "../content.ts";

export type VerdictWords = { readonly text: string; readonly mark: VerdictMark };
type WithheldPair = Pick<Comparison, "verdict_withheld">;

const WORDS: Record<Verdict, VerdictWords> = {
  "clear gain": { text: "clear gain", mark: "up" },
  "clear loss": { text: "clear loss", mark: "down" },
  "clearly higher": { text: "clearly higher", mark: "up" },
  "clearly lower": { text: "clearly lower", mark: "down" },
  "within repeatability": { text: "within repeatability", mark: "level" },
  "too few repeats": { text: "too few repeats to say", mark: "unknown" },
};

const WITHHELD: Record<NonNullable<Comparison["verdict_withheld"]>, string> = {
  conditions: "no verdict, conditions differ",
  "check plate": "no verdict, check plate off",
  "two benches": "no verdict, two benches",
  "two ranges": "no verdict, two ranges",
  "flowed once": "flowed once each time: not judged",
};

/** A verdict as printed, and the shape drawn beside it; or why it is withheld. */
export function verdictWords(verdict: Verdict | undefined, pair?: WithheldPair): VerdictWords {
  const judged = verdict ?? "too few repeats";
  return judged === "too few repeats" && pair?.verdict_withheld
    ? { text: WITHHELD[pair.verdict_withheld], mark: "unknown" }
    : WORDS[judged];
}

/** The verdict that may be claimed: none for a change without its ±, or whose verdict is withheld. */
export const claimableVerdict = (verdict: Verdict | undefined, uncertainty: number | undefined): Verdict =>
  uncertainty === undefined || verdict === undefined ? "too few repeats" : verdict;

/** Whether a verdict says that something became less, or is less than that of another head. */
export const isLoss = (verdict: Verdict | undefined): boolean =>
  verdict === "clear loss" || verdict === "clearly lower";

/** Whether a number may be printed for a change: where it is judged, or where only conditions that differ keep it from that. */
export const mayPrint = (
  verdict: Verdict | undefined,
  uncertainty: number | undefined,
  pair?: WithheldPair,
): uncertainty is number =>
  claimableVerdict(verdict, uncertainty) !== "too few repeats" ||
  (uncertainty !== undefined && pair?.verdict_withheld === "conditions");
