import type { Comparison, Verdict } from "../../figures/figures.ts";
import type { VerdictMark } from "../content.ts";

type Words = { readonly text: string; readonly mark: VerdictMark };

const WORDS: Record<Verdict, Words> = {
  "clear gain": { text: "clear gain", mark: "up" },
  "clear loss": { text: "clear loss", mark: "down" },
  "clearly higher": { text: "clearly higher", mark: "up" },
  "clearly lower": { text: "clearly lower", mark: "down" },
  "within repeatability": { text: "within repeatability", mark: "level" },
  "too few repeats": { text: "too few repeats to say", mark: "unknown" },
};

const WITHHELD: Record<NonNullable<Comparison["verdict_withheld"]>, Words> = {
  "check plate": { text: "no verdict, check plate off", mark: "unknown" },
  "two benches": { text: "no verdict, two benches", mark: "unknown" },
};

/** A verdict as printed, and the shape drawn beside it; or why every verdict is withheld. */
export const verdictWords = (verdict: Verdict, pair?: Pick<Comparison, "verdict_withheld">): Words =>
  pair?.verdict_withheld ? WITHHELD[pair.verdict_withheld] : WORDS[verdict];

/** Nothing is claimed of a change whose ± is not known, whatever else is. */
export const claimable = (verdict: Verdict, uncertainty: number | undefined): Verdict =>
  uncertainty === undefined ? "too few repeats" : verdict;

/** Whether a verdict says that something changed. */
export const isClear = (verdict: Verdict): boolean =>
  verdict !== "within repeatability" && verdict !== "too few repeats";

/** Whether a number may be printed for a change: never where repeats are too few to say. */
export const mayPrint = (verdict: Verdict, uncertainty: number | undefined): uncertainty is number =>
  claimable(verdict, uncertainty) !== "too few repeats";
