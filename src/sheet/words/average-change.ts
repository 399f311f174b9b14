import type { Comparison, Verdict } from "../../figures/figures.ts";
import { formatPercent } from "../display.ts";
import { capitalize } from "./text.ts";
import { claimableVerdict, mayPrint, type VerdictWords, verdictWords } from "./verdicts.ts";

/** What is known of an average change. */
type AverageChange = Pick<
  Comparison,
  "mean_change_ratio" | "mean_change_verdict" | "mean_change_uncertainty_ratio" | "bound_ratio" | "verdict_withheld"
>;

/** The verdict on the average change; nothing when there is none. */
export const averageVerdict = (pair: AverageChange): Verdict | undefined =>
  pair.mean_change_ratio === undefined
    ? undefined
    : claimableVerdict(pair.mean_change_verdict, pair.mean_change_uncertainty_ratio);

/** The same as printed; a null result with its size. */
export function averageVerdictWords(pair: AverageChange): VerdictWords | undefined {
  const verdict = averageVerdict(pair);
  if (verdict === undefined) return undefined;
  const words = verdictWords(verdict, pair);
  if (isFragile(pair)) return { ...words, text: "not claimed: not at like, steady readings" };
  return verdict === "within repeatability" && pair.bound_ratio !== undefined
    ? { ...words, text: `${words.text}, smaller than ${formatBound(pair.bound_ratio)}` }
    : words;
}

/** A change beyond its ± that does not hold at the lifts of both sweeps, or without unsteady readings: no verdict, for another reason than few repeats. */
const isFragile = (pair: AverageChange): boolean =>
  pair.mean_change_verdict === "too few repeats" &&
  pair.mean_change_uncertainty_ratio !== undefined &&
  pair.verdict_withheld === undefined;

/** An upper bound is rounded up. */
export const formatBound = (ratio: number): string => formatPercent(Math.ceil(ratio * 1000 - 1e-9) / 1000);

/** Average change of one port, stage to stage, as a sentence for anyone. */
export function averageChangeWords(pair: AverageChange & Pick<Comparison, "side">): string | undefined {
  const verdict = averageVerdict(pair);
  if (verdict === undefined) return undefined;
  const side = capitalize(pair.side);
  const { mean_change_ratio: change = 0, mean_change_uncertainty_ratio: u, bound_ratio: bound } = pair;
  const size = (more: string, less: string) =>
    `${side} flow: ${formatPercent(Math.abs(change))} ${change < 0 ? less : more} (±\u00a0${formatPercent(u ?? 0)}) on average`;
  switch (verdict) {
    case "clear gain":
    case "clear loss":
      return `${size("up", "down")}, a ${verdict}.`;
    case "within repeatability":
      return bound === undefined
        ? `${side} flow did not clearly change: the average is within repeatability.`
        : `${side} flow did not clearly change: any change of the average is smaller than ${formatBound(bound)}.`;
    case "too few repeats":
      if (isFragile(pair))
        return `${side} flow: no change of the average is claimed. It does not hold at like lifts with steady readings.`;
      if (mayPrint(verdict, u, pair)) return `${size("more", "less")}; ${WHY_WITHHELD.conditions}.`;
      return pair.verdict_withheld
        ? `${side}: ${WHY_WITHHELD[pair.verdict_withheld]}.`
        : `${side} flow has too few repeats to say whether it changed.`;
    default:
      return `${side} flow is ${verdict} on average.`;
  }
}

const WHY_WITHHELD: Record<NonNullable<Comparison["verdict_withheld"]>, string> = {
  conditions: "conditions differ, so no verdict is given",
  "check plate": "the bench's check plate was more than 2 % off, so no verdict is given",
  "two benches": "flowed on two benches whose accuracy is not stated, so no verdict is given",
  "two ranges": "read on two ranges of a bench whose accuracy is not stated, so no verdict is given",
  "flowed once": "flowed once each time: not judged",
};
