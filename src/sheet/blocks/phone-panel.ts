import { leadingPoint } from "../compared.ts";
import type { FlowPanels } from "../content.ts";
import { type BlockBuilder, type Context, endStages } from "../context.ts";
import { flowPanel, type PanelCurves, PLOT, panelAxes, panelCurves, showsErrorBars } from "../flow-panel.ts";
import { section } from "../section.ts";
import { averageChangeWords } from "../words/average-change.ts";
import { panelAlt } from "../words/chart-alt.ts";
import { briefCaption } from "../words/panel-caption.ts";
import { capitalize, lowercaseFirst } from "../words/text.ts";
import { LABELS } from "./flow-panels.ts";

/** The panel of the side that changed more, with the averages of both in its caption: for a page of one column. */
export const mainPanel: BlockBuilder = (context, place) => {
  const [curves] = byChange(context);
  return curves ? section(place, undefined, [onePanel(context, curves, place.cell.height, true)]) : [];
};

/** The panel of the other side. */
export const otherPanel: BlockBuilder = (context, place) => {
  const [, curves] = byChange(context);
  return curves ? section(place, undefined, [onePanel(context, curves, place.cell.height, false)]) : [];
};

/** The sides flowed, the one whose average changed more first; other heads have no place on a small page. */
const byChange = (context: Context): readonly PanelCurves[] =>
  ownCurves(context).toSorted((a, b) => sizeOf(b) - sizeOf(a));

const ownCurves = (context: Context): readonly PanelCurves[] =>
  panelCurves(context).map((one) => ({
    ...one,
    series: one.series.filter(({ name }) => context.stages.some((stage) => stage.name === name)),
  }));

const sizeOf = ({ pair }: PanelCurves) => Math.abs(pair?.mean_change_ratio ?? 0);

function onePanel(context: Context, curves: PanelCurves, height: number | undefined, main: boolean): FlowPanels {
  const { paper } = context.theme;
  const by = paper.chartScale ?? 1;
  const width = (paper.width - paper.margin.left - paper.margin.right) / by;
  const axes = panelAxes(context, ownCurves(context), width, PLOT.phone);
  const bars = showsErrorBars([curves], axes.y, PLOT.most);
  const point = leadingPoint(context, curves.side);
  const chart = flowPanel(context, curves, axes, { bars: bars === true, point });
  const alt = panelAlt(`${curves.side} flow against valve lift`, chart, curves.pair && averageChangeWords(curves.pair));
  const least = by * (PLOT.phone + LABELS);
  const panels = [{ heading: headingOf(context, curves), chart, alt }];
  return {
    kind: "flow-panels",
    panels,
    height: height ?? least,
    ...(height === undefined ? { grow: [least, by * (PLOT.phoneMost + LABELS)] } : {}),
    ...(main ? { caption: briefCaption(context, panels, curves, { bars, points: [point] }) } : {}),
  };
}

/** "Intake flow, as received and finished". */
function headingOf(context: Context, { side, alike }: PanelCurves): string {
  const { first, last } = endStages(context);
  const stages = first && last && !alike ? `, ${lowercaseFirst(first.name)} and ${lowercaseFirst(last.name)}` : "";
  return `${capitalize(side)} flow${stages}`;
}
