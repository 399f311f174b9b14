import type { Side } from "../../model/model.ts";
import { formatNumber } from "../../units/show.ts";
import type { LineChart, Series } from "../content.ts";
import { type BlockBuilder, type Context, camLift, endStages, flowedFigures, overallComparison } from "../context.ts";
import { flowCurves, sharedAxes } from "../flow-curves.ts";
import { otherHeadNotes } from "../other-head-notes.ts";
import { portNotes } from "../port-notes.ts";
import { presentItems, section } from "../section.ts";
import { averageChangeWords } from "../words/average-change.ts";
import { lineAlt } from "../words/chart-alt.ts";
import { chartMarkWords } from "../words/chart-marks.ts";
import { differenceWords, formatPressure, pressureConversionWords } from "../words/conditions.ts";
import { capitalize } from "../words/text.ts";

/** Height of a pair of charts, where the template names none [pt]. */
export const CHART_HEIGHT = 185;

/** Flow against lift, one side a panel, under the same axes. */
export const flowChart: BlockBuilder = (context, place) => {
  const panels = context.sides
    .map((side) => ({ side, series: flowCurves(context, side) }))
    .filter(({ series }) => series.length > 0);
  if (panels.length === 0) return [];
  const { display, model } = context;
  const axes = sharedAxes(
    panels.map(({ series }) => series),
    {
      x: `Lift (${display.unit("lift")})`,
      y: `Flow at ${formatPressure(model.reference.testPressure, display)} (${display.unit("flow")})`,
    },
  );
  return section(place, undefined, [
    {
      kind: "charts",
      height: place.cell.height ?? CHART_HEIGHT,
      charts: panels.map(({ side, series }) => {
        const chart: LineChart = {
          kind: "line",
          ...axes,
          series,
          ...topScale(context, side, axes.x.end),
          ...camMark(context, side, axes.x.end),
        };
        const pair = overallComparison(context, side);
        return {
          title: `${capitalize(side)} flow`,
          chart,
          alt: lineAlt(`${side} flow against valve lift`, chart, pair && averageChangeWords(pair)),
        };
      }),
      caption: caption(context, panels),
    },
  ]);
};

/** Lift ÷ diameter of the latest valve, along the top. */
function topScale(context: Context, side: Side, end: number): Pick<LineChart, "top"> {
  const { last } = endStages(context);
  const diameter = flowedFigures(last, side)?.valve_diameter_m;
  if (diameter === undefined) return {};
  const one = context.display.number("lift", diameter);
  const ticks: { at: number; label: string }[] = [];
  for (let i = 1; i * 0.1 * one <= end; i += 1) ticks.push({ at: i * 0.1 * one, label: formatNumber(i * 0.1, 1) });
  return ticks.length > 0 ? { top: { title: "Lift ÷ diameter", ticks } } : {};
}

function camMark(context: Context, side: Side, end: number): Pick<LineChart, "marks"> {
  const lift = camLift(context, side);
  const at = lift === undefined ? undefined : context.display.number("lift", lift);
  return at === undefined || at > end ? {} : { marks: [{ axis: "x", at, label: "your cam" }] };
}

function caption(context: Context, panels: readonly { side: Side; series: readonly Series[] }[]): string {
  const { last } = endStages(context);
  const unlike = differenceWords(panels.flatMap(({ side }) => overallComparison(context, side) ?? []));
  const many = context.stages.length > 1;
  return presentItems<string>([
    ...chartMarkWords(
      panels.flatMap(({ series }) => series),
      many ? last?.name : undefined,
    ),
    pressureConversionWords(
      panels.flatMap(({ side }) => context.stages.flatMap((stage) => flowedFigures(stage, side)?.readings ?? [])),
      context.display,
    ),
    ...portNotes(
      context,
      panels.map(({ side }) => side),
      context.stages,
      "Lines",
    ),
    ...unlike,
    ...otherHeadNotes(context),
  ]).join(" ");
}
