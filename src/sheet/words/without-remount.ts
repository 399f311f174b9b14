import type { Comparison } from "../../figures/figures.ts";
import { type Context, endStages } from "../context.ts";
import { averageVerdict } from "./average-change.ts";
import { isClear } from "./verdict-words.ts";

/**
 * The head left the bench for the work. Where a change is claimed and neither a stated ±, nor sweeps with the head off and on,
 * nor a baseline measured again tells what that adds, the sheet says so where it claims.
 */
export function withoutRemount(context: Context, pairs: readonly Comparison[]): readonly string[] {
  const claimed = pairs.some(
    (pair) => pair.floor_ratio === undefined && isClear(averageVerdict(pair) ?? "too few repeats"),
  );
  const { first, last } = endStages(context);
  const known = [first, last].every((one) => {
    const set = one?.stage.sets[0];
    if (set === undefined) return true;
    const mounts = new Set(set.runs.map(({ mount }) => mount));
    return set.bench.remount !== undefined || (set.bench.repeatability === undefined && mounts.size > 1);
  });
  return claimed && !known ? ["The ± leaves out what taking the head off and on adds: it was not stated."] : [];
}
