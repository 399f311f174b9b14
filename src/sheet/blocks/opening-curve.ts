import type { LineChart, Series } from "../content.ts";
import type { BlockBuilder } from "../context.ts";
import { sharedAxes } from "../flow-curves.ts";
import { niceAxis } from "../nice-axis.ts";
import { section } from "../section.ts";
import { lineAlt } from "../words/chart-alt.ts";
import { formatPressure } from "../words/conditions.ts";
import { capitalize } from "../words/text.ts";
import { CHART_HEIGHT } from "./flow-chart.ts";

/** Room above the highest line for its name. */
const NAME_ROOM = 1.15;

/** Flow over the time the cam holds the valve open. */
export const openingCurve: BlockBuilder = (context, place) => {
  const { display, model } = context;
  const panels = context.sides.flatMap((side) => {
    const series = context.stages.flatMap((stage): Series[] => {
      const opening = stage.figures[side]?.opening ?? [];
      if (opening.length < 2) return [];
      const curve = opening.map(
        ([angle, flow]) => [display.number("angle", angle), display.number("flow", flow)] as const,
      );
      return [{ name: stage.name, label: stage.name, style: stage.style, curve, points: [] }];
    });
    return series.length > 0 ? [{ side, series }] : [];
  });
  if (panels.length === 0) return [];
  const highest = Math.max(...panels.flatMap(({ series }) => series.map((one) => peakPoint(one)[1])));
  const angles = panels.flatMap(({ series }) => series.flatMap(({ curve }) => curve.map(([angle]) => angle)));
  const { y } = sharedAxes(
    panels.map(({ series }) => series),
    { x: "", y: `Flow at ${formatPressure(model.reference.testPressure, display)} (${display.unit("flow")})` },
    { y: highest * NAME_ROOM },
  );
  const assumed = panels.some(({ side }) => (model.engine?.cams[side]?.profile ?? []).length < 2);
  const x = { title: "Crank angle (°)", ...niceAxis(Math.min(...angles), Math.max(...angles), 6) };
  return section(place, "Flow over the cam's opening", [
    {
      kind: "charts",
      height: place.cell.height ?? CHART_HEIGHT,
      charts: panels.map(({ side, series }) => {
        const chart: LineChart = { kind: "line", x, y, series: placeLabels(series) };
        return { title: capitalize(side), chart, alt: lineAlt(`${side} flow over the cam's open period`, chart) };
      }),
      caption: `Calculated: bench flow at the lift that the cam gives at each crank angle.${assumed ? " A raised-cosine lift curve of the stated lift and duration is assumed." : ""}`,
    },
  ]);
};

/** All lines end at zero: each is named past its peak, where the lines are furthest from each other. */
function placeLabels(series: readonly Series[]): readonly Series[] {
  const highest = series.toSorted((a, b) => peakPoint(b)[1] - peakPoint(a)[1])[0];
  if (!highest) return series;
  const [peak] = peakPoint(highest);
  const falling = highest.curve.map(([angle]) => angle).filter((angle) => angle >= peak);
  const apart = (angle: number) => {
    const flows = series.map(({ curve }) => flowAt(curve, angle)).sort((a, b) => a - b);
    return Math.min(...flows.slice(1).map((flow, i) => flow - flows[i]!));
  };
  const gaps = falling.map(apart);
  const labelAt = falling[gaps.lastIndexOf(Math.max(...gaps))];
  return labelAt === undefined ? series : series.map((one) => ({ ...one, labelAt }));
}

const peakPoint = ({ curve }: Series) => curve.reduce((high, point) => (point[1] > high[1] ? point : high));

/** Straight between its points, as it is drawn; nothing flows before and after. */
function flowAt(curve: Series["curve"], angle: number): number {
  const next = curve.findIndex(([at]) => at >= angle);
  const [b, a] = [curve[next], curve[next - 1]];
  if (!b) return 0;
  return !a || b[0] === angle ? b[1] : a[1] + ((b[1] - a[1]) * (angle - a[0])) / (b[0] - a[0]);
}
