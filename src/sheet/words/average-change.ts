import type { Comparison, Verdict } from "../../figures/figures.ts";
import { percent } from "../percent.ts";
import { capital } from "./sentence.ts";
import { claimable } from "./verdict-words.ts";

/** The verdict on the average change; nothing when there is none. */
export const averageVerdict = (
  pair: Pick<Comparison, "mean_change_ratio" | "mean_change_verdict" | "mean_change_uncertainty_ratio">,
): Verdict | undefined =>
  pair.mean_change_ratio === undefined
    ? undefined
    : claimable(pair.mean_change_verdict ?? "too few repeats", pair.mean_change_uncertainty_ratio);

const WITHHELD: Record<NonNullable<Comparison["verdict_withheld"]>, string> = {
  "check plate": "the bench's check plate was more than 2 % off",
  "two benches": "flowed on two benches whose accuracy is not stated",
};

/** Average change of one port, stage to stage, as a sentence for anyone. */
export function averageChange(pair: Comparison): string | undefined {
  const verdict = averageVerdict(pair);
  if (verdict === undefined) return undefined;
  const side = capital(pair.side);
  if (pair.verdict_withheld) return `${side}: ${WITHHELD[pair.verdict_withheld]}, so no verdict is given.`;
  const change = pair.mean_change_ratio as number;
  const clear = (word: string) =>
    `${side} flow: ${percent(Math.abs(change))} ${word} (±\u00a0${percent(pair.mean_change_uncertainty_ratio as number)}) on average, a ${verdict}.`;
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
