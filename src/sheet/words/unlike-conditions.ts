import type { Comparison } from "../../figures/figures.ts";
import { capital, sentence } from "./sentence.ts";

/** Said where two sets are compared that were not taken alike: what differs, each in its own sentence; or why they are not compared. */
export function unlikeConditions(pair: Comparison): string | undefined {
  if (pair.like_for_like) return undefined;
  const side = capital(pair.side);
  if (pair.not_compared) return `${side}: not compared: ${pair.differences.join("; ")}.`;
  return [`${side}: conditions differ, so this is not like for like.`, ...pair.differences.map(sentence)].join(" ");
}
