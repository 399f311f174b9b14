import { applyingCautions } from "./cautions.ts";
import { type Context, wholeChange } from "./context.ts";
import { unlikeConditions } from "./words/conditions.ts";
import { count, joinWords, lowered } from "./words/text.ts";
import { averageChange, lossWithin, withoutRemount } from "./words/verdicts.ts";

/** Areas named in one sentence; more are counted. */
const MOST_AREAS = 4;

/** What was done, in one sentence. */
export function whatWasDone({ model: { text }, stages }: Context): string {
  const areas = text.work.map(({ area }) => lowered(area));
  const heads = text.heads.length > 1 ? `these ${count(text.heads.length, "head")}` : "this head";
  if (areas.length === 0) {
    return stages.some(({ stage }) => stage.sets.length > 0)
      ? `We measured ${heads}; this sheet lists no work.`
      : `This sheet describes ${heads}; it lists no work.`;
  }
  const named = areas.slice(0, MOST_AREAS);
  const rest = areas.length - named.length;
  return `Work on ${joinWords(rest > 0 ? [...named, `${rest} more`] : named)}.`;
}

/** What changed and how sure we are: a sentence a side. */
export function whatChanged(context: Context): string | undefined {
  const pairs = context.sides.flatMap((side) => wholeChange(context, side) ?? []);
  const said = pairs.flatMap((pair) => averageChange(pair) ?? []);
  if (said.length === 0) return undefined;
  const losses = pairs.flatMap((pair) => lossWithin(pair, context.display) ?? []);
  const unlike = pairs.flatMap((pair) => unlikeConditions(pair) ?? []);
  return [...said, ...losses, ...unlike, ...withoutRemount(context, pairs)].join(" ");
}

/** As much as stands in one sentence. */
const MOST_STEPS = 1;

/** What to do before the engine runs, the most pressing first. */
export function beforeItRuns(context: Context): string | undefined {
  const steps = applyingCautions(context).flatMap(({ before }) => before ?? []);
  if (steps.length === 0) return undefined;
  return `Before it runs, ${steps.slice(0, MOST_STEPS).join("; ")}.`;
}
