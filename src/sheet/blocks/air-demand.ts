import type { EngineFigures } from "../../figures/figures.ts";
import { MACH_INDEX_LIMIT } from "../../model/constants.ts";
import { type BlockBuilder, endStages } from "../context.ts";
import { otherEngines } from "../other-engines.ts";
import { presentItems, section } from "../section.ts";
import { meetingSpeedWords, type SpeedLine, speedPanel } from "../speed-panel.ts";
import { panelAlt } from "../words/chart-alt.ts";
import { lowercaseFirst } from "../words/text.ts";
import { speedChart } from "./speed-chart.ts";

/** The engine's demand for air against what the valve passes: inlet Mach index against engine speed. */
export const airDemand: BlockBuilder = (context, place) => {
  const line = (
    names: Pick<SpeedLine, "name" | "said">,
    style: SpeedLine["style"],
    engine: EngineFigures | undefined,
  ): SpeedLine[] => {
    const values = (engine?.inlet_mach_index ?? []).map(({ rpm, z }) => [rpm, z] as const);
    const met = engine?.z_limit_rpm;
    return values.length < 2 ? [] : [{ ...names, style, values, met: met === undefined ? [] : [met] }];
  };
  const own = context.stages.flatMap(({ name, style, figures: { engine } }) =>
    line({ name, said: lowercaseFirst(name) }, style, engine),
  );
  const lines = [
    ...otherEngines(context).flatMap((one) => line({ name: one.label, said: one.label }, one.style, one.engine)),
    ...own,
  ];
  const panel = own.length === 0 ? undefined : speedPanel(lines, "", MACH_INDEX_LIMIT);
  if (!panel) return [];
  const chart = { ...panel, levels: [MACH_INDEX_LIMIT] };
  const met = meetingSpeedWords(lines);
  const fromLift = endStages(context).last?.figures.engine?.inlet_mach_index_from_lift_only;
  const words = presentItems<string>([
    "Inlet Mach index over the valve's open period, calculated.",
    `Dotted: ${MACH_INDEX_LIMIT}${met ? `, met at ${met}` : ""}.`,
    fromLift && "From lift only: the lobe's shape is not known.",
  ]).join(" ");
  const alt = panelAlt("inlet Mach index against engine speed", chart, words);
  return section(place, "Air demand of the intake", [speedChart(place, chart, alt, words)]);
};
