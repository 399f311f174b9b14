import { type Context, otherHeadComparisons } from "./context.ts";

/** Notes on other heads flowed under other conditions, each named once. */
export function otherHeadNotes(context: Context): readonly string[] {
  const pairs = context.sides
    .flatMap((side) => otherHeadComparisons(context, side))
    .filter((pair) => !pair.like_for_like);
  const said = pairs.map((pair) => {
    const label = pair.from.label ?? pair.to.label;
    return pair.not_compared
      ? `${label}: not compared: ${pair.differences.join("; ")}.`
      : `${label}: other conditions, not like for like.`;
  });
  return [...new Set(said)];
}
