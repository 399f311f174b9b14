import { type BlockBuilder, endStages } from "../context.ts";
import { changeStrips, isOneCurve, PLOT, panelAxes, panelCurves } from "../flow-panel.ts";
import { section } from "../section.ts";
import { averageChangeWords } from "../words/average-change.ts";
import { stripAlt } from "../words/chart-alt.ts";
import { differenceWords } from "../words/conditions.ts";
import { stripWords } from "../words/panel-caption.ts";
import { capitalize, lowercaseFirst } from "../words/text.ts";
import { HALF_PLOT, LABELS, WHOLE_PLOT } from "./flow-panels.ts";

/** Change at each lift under the x axis of the flow panels. Where nothing changed the strips stand under the panels already. */
export const changeStripsBlock: BlockBuilder = (context, place) => {
  const { first, last } = endStages(context);
  const curves = panelCurves(context);
  const alike = isOneCurve(curves);
  if (!first || !last || curves.length === 0 || (alike && context.blocks.includes("flow-panels"))) return [];
  const { x } = panelAxes(context, curves, curves.length > 1 ? HALF_PLOT : WHOLE_PLOT);
  const strips = changeStrips(context, curves, x, alike);
  const charts = curves.flatMap(({ side, pair }, i) => {
    const chart = strips[i];
    if (!chart) return [];
    const message = pair && averageChangeWords(pair);
    return [
      { title: `${capitalize(side)} (%)`, chart, alt: stripAlt(`change in ${side} flow at each lift`, chart, message) },
    ];
  });
  if (charts.length === 0) return [];
  const drawn = strips.flatMap((strip) => strip ?? []);
  const caption = [stripWords(curves, drawn), ...differenceWords(curves.flatMap(({ pair }) => pair ?? []))].join(" ");
  const height = place.cell.height ?? PLOT.strip + LABELS;
  const grow = place.cell.height === undefined ? { grow: [height, PLOT.stripMost + LABELS] as const } : {};
  const title = `Change at each lift, against ${lowercaseFirst(first.name)}`;
  return section(place, title, [{ kind: "charts", height, ...grow, charts, caption }]);
};
