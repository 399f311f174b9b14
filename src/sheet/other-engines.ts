import type { EngineFigures } from "../figures/figures.ts";
import type { SeriesStyle } from "../theme/theme.ts";
import { type Context, endStages, otherHeadComparisons } from "./context.ts";
import { parseWithheld } from "./withheld.ts";

/** Another head on this job's engine, with the line style that it has in the flow chart. */
export type OtherEngine = { readonly label: string; readonly engine: EngineFigures; readonly style: SeriesStyle };

/** Engine figures of the other heads; without those made from a pinch that the other job holds back. */
export function otherEngines(context: Context): readonly OtherEngine[] {
  const { model, theme } = context;
  const sets = (endStages(context).last?.figures.sets ?? []).filter(({ intake }) => intake).length;
  const styles = theme.series.others;
  return otherHeadComparisons(context, "intake").flatMap(({ from: { label }, engine }): OtherEngine[] => {
    const k = model.compared.findIndex((head) => head.label === label);
    const style = styles[(sets + k) % Math.max(styles.length, 1)];
    if (label === undefined || engine === undefined || style === undefined) return [];
    const { pinch_limit_rpm: _limit, pinch_band_rpm: _band, ...rest } = engine;
    const held = parseWithheld(model.compared[k]?.holdBack ?? []).pinch;
    return [{ label, engine: held ? { ...rest, pinch_velocity: [] } : engine, style }];
  });
}
