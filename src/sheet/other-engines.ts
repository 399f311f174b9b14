import type { EngineFigures } from "../figures/figures.ts";
import type { SeriesStyle } from "../theme/theme.ts";
import { type Context, endStages, otherHeadComparisons } from "./context.ts";
import { otherStyle } from "./flow-curves.ts";
import { parseWithheld } from "./withheld.ts";

/** Another head on this job's engine, with the line style that it has in the flow chart. */
export type OtherEngine = { readonly label: string; readonly engine: EngineFigures; readonly style: SeriesStyle };

/** Engine figures of the other heads; without those made from a pinch that the other job holds back. */
export function otherEngines(context: Context): readonly OtherEngine[] {
  const sets = endStages(context).last?.figures.sets.length ?? 0;
  const pairs = otherHeadComparisons(context, "intake");
  return context.model.compared.flatMap(({ label, holdBack = [] }, i): OtherEngine[] => {
    const engine = pairs.find(({ from }) => from.label === label)?.engine;
    if (engine === undefined) return [];
    const { pinch_limit_rpm: _limit, pinch_band_rpm: _band, ...rest } = engine;
    const held = parseWithheld(holdBack).pinch;
    return [{ label, engine: held ? { ...rest, pinch_velocity: [] } : engine, style: otherStyle(context, sets + i) }];
  });
}
