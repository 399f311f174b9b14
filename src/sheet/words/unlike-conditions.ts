import type { Comparison } from "../../figures/figures.ts";
import { capital, sentence } from "./sentence.ts";

/** Said where two sets are compared that were not taken alike: what differs, each in its own sentence; or why they are not compared. */
export const unlikeConditions = (pair: Comparison): string | undefined => unlikeSides([pair])[0];

/** The same of both sides of a head: once, where it is so of both. */
export function unlikeSides(pairs: readonly Comparison[]): readonly string[] {
  const said = pairs.flatMap((pair) => {
    const why = whyUnlike(pair);
    return why === undefined ? [] : [{ side: pair.side, why }];
  });
  return [...new Set(said.map(({ why }) => why))].map((why) => {
    const sides = said.filter((one) => one.why === why).map(({ side }) => side);
    return `${capital(sides.join(" and "))}: ${why}`;
  });
}

function whyUnlike(pair: Comparison): string | undefined {
  if (pair.like_for_like) return undefined;
  if (pair.not_compared) return `not compared: ${pair.differences.join("; ")}.`;
  return ["conditions differ, so this is not like for like.", ...pair.differences.map(sentence)].join(" ");
}
