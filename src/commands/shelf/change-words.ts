import { percent, signedPercentDigits } from "../../sheet/percent.ts";
import { claimable, isClear, verdictWords } from "../../sheet/words/verdicts.ts";
import type { ShelfChange } from "./shelf-entry.ts";

/** A change with its verdict: the number stands where it is clear, and no verdict without its unlike conditions. */
export function changeWords(change: ShelfChange): string {
  const { ratio, uncertainty_ratio: uncertainty, verdict_withheld: withheld } = change;
  const verdict = claimable(change.verdict, uncertainty);
  const number =
    !withheld && isClear(verdict)
      ? `${signedPercentDigits(ratio)}\u00a0±\u00a0${percent(uncertainty as number)}, `
      : "";
  const words = verdictWords(verdict, withheld ? { verdict_withheld: withheld } : undefined).text;
  return `${number}${words}${change.like_for_like ? "" : "; measured unlike"}`;
}
