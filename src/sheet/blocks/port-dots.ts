import type { SideFigures } from "../../figures/figures.ts";
import type { Side } from "../../model/model.ts";
import type { Axis, DotStrip } from "../content.ts";
import { type BlockBuilder, type Context, endStages, flowedFigures } from "../context.ts";
import { formatPercent } from "../display.ts";
import { PLOT } from "../flow-panel.ts";
import { evenAxis } from "../panel-axis.ts";
import { section } from "../section.ts";
import { stripAlt } from "../words/chart-alt.ts";
import { sidePortsWords } from "../words/identity.ts";
import { capitalize } from "../words/text.ts";
import { LABELS } from "./flow-panels.ts";

type Panel = { readonly side: Side; readonly figures: SideFigures };

/** Each cylinder's average flow as a dot about the mean of all, in percent, both sides on one scale. */
export const portDots: BlockBuilder = (context, place) => {
  const { last } = endStages(context);
  const panels = context.sides.flatMap((side): Panel[] => {
    const figures = flowedFigures(last, side);
    return figures && figures.cylinders.length > 1 ? [{ side, figures }] : [];
  });
  if (panels.length === 0) return [];
  const reach = Math.max(...panels.flatMap(({ figures }) => deviations(figures).map(({ y }) => Math.abs(y))));
  const y: Axis = { title: "%", ...evenAxis(reach, PORT_STEPS) };
  const height = place.cell.height ?? PLOT.strip + LABELS;
  return section(place, "Port to port", [
    {
      kind: "charts",
      height,
      charts: panels.map(({ side, figures }) => {
        const chart = portStrip(context, figures, y);
        return {
          title: capitalize(side),
          chart,
          alt: stripAlt(`${side} flow of each cylinder about their mean`, chart),
        };
      }),
      caption: panels.map((panel) => spreadWords(context, panel)).join(" "),
    },
  ]);
};

/** Ends of the scale, up and down from the mean [%]. */
const PORT_STEPS = [2, 5, 10, 20, 25, 50];

/** Each cylinder's place and deviation from the mean [%]. */
function deviations({ cylinders }: SideFigures): readonly { readonly x: number; readonly y: number }[] {
  const mean = cylinders.reduce((sum, { mean_flow_m3_s }) => sum + mean_flow_m3_s, 0) / cylinders.length;
  return cylinders.map(({ cylinder, mean_flow_m3_s }) => ({ x: cylinder, y: 100 * (mean_flow_m3_s / mean - 1) }));
}

function portStrip({ theme }: Context, figures: SideFigures, y: Axis): DotStrip {
  const dots = deviations(figures);
  const highest = Math.max(...dots.map(({ x }) => x));
  const ticks = [...new Set(dots.map(({ x }) => x))].toSorted((a, b) => a - b);
  return {
    kind: "dot-strip",
    x: { title: "cylinder", start: 0, end: highest + 0.5, ticks, decimals: 0 },
    y,
    color: theme.series.latest.color,
    stems: false,
    zone: [],
    dots: dots.map((dot) => ({ ...dot, hollow: false })),
  };
}

function spreadWords({ display }: Context, { side, figures }: Panel): string {
  const mean = figures.cylinders.reduce((sum, one) => sum + one.mean_flow_m3_s, 0) / figures.cylinders.length;
  const spread = figures.cylinder_spread;
  const words = `${sidePortsWords(side, figures.flowed)} Mean ${display.full("flow", mean)}`;
  return spread === undefined ? `${words}.` : `${words}, highest less lowest ${formatPercent(spread)} of it.`;
}
