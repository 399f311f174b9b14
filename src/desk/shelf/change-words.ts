import { percent } from "../../sheet/percent.ts";
import { mayPrint, verdictWords } from "../../sheet/words/verdict-words.ts";
import { showChange } from "../../units/show.ts";
import type { ShelfChange } from "./shelf-entry.ts";

/** A change with its verdict: the number stands only where it may be claimed, and no verdict without its unlike conditions. */
export function changeWords(change: ShelfChange): string {
  const { ratio, uncertainty_ratio: uncertainty, verdict, verdict_withheld: withheld } = change;
  const number =
    !withheld && mayPrint(verdict, uncertainty)
      ? `${showChange(ratio, "ratio", "%", 1)} ±\u00a0${percent(uncertainty)}, `
      : "";
  const words = verdictWords(verdict, withheld ? { verdict_withheld: withheld } : undefined).text;
  return `${number}${words}${change.like_for_like ? "" : "; measured unlike"}`;
}
