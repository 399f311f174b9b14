import type { LineChart, Series } from "../content.ts";
import type { BlockBuilder, Context } from "../context.ts";
import { sharedAxes } from "../flow-curves.ts";
import { section } from "../section.ts";
import { lineAlt } from "../words/chart-alt.ts";
import { formatPressure } from "../words/conditions.ts";
import { typicalWords } from "../words/identity.ts";
import { capitalize, countWords } from "../words/text.ts";
import { CHART_HEIGHT } from "./flow-chart.ts";

/** A band no wider than this [pt] is lost under the line and its markers. */
const LEAST_BAND = 4;

/** Mean flow over the parts measured, in the band from the lowest to the highest. */
export const sampleChart: BlockBuilder = (context, place) => {
  const { display, figures, model } = context;
  const sample = figures.sample;
  if (!sample) return [];
  const panels = samplePanels(context, sample);
  if (panels.length === 0) return [];
  const axes = sharedAxes(
    panels.map(({ series }) => [series]),
    {
      x: `Lift (${display.unit("lift")})`,
      y: `Flow at ${formatPressure(model.reference.testPressure, display)} (${display.unit("flow")})`,
    },
    { y: Math.max(...panels.flatMap(({ band }) => band.map(({ high }) => high))) },
  );
  const height = place.cell.height ?? CHART_HEIGHT;
  const widest = Math.max(...panels.flatMap(({ band }) => band.map(({ low, high }) => high - low)));
  const seen = (widest / axes.y.end) * height >= LEAST_BAND;
  const many = sample.n > 1;
  const spread = seen
    ? "Band: lowest to highest."
    : "The range from lowest to highest is narrower than the line; the table gives it.";
  return section(place, undefined, [
    {
      kind: "charts",
      height,
      charts: panels.map(({ side, series, band }) => {
        const chart: LineChart = {
          kind: "line",
          ...axes,
          series: [series],
          ...(many && seen ? { bands: [{ points: band }] } : {}),
        };
        return {
          title: `${capitalize(side)} flow`,
          chart,
          alt: lineAlt(`${side} flow against valve lift over ${countWords(sample.n, "part")}`, chart),
        };
      }),
      caption: `${typicalWords(sample.n)}.${many ? ` Line: mean. ${spread}` : ""} Straight lines join the lifts.`,
    },
  ]);
};

/** Line and band of each side that was measured. */
function samplePanels({ display, sides, theme }: Context, sample: NonNullable<Context["figures"]["sample"]>) {
  return sides.flatMap((side) => {
    const readings = sample[side]?.readings ?? [];
    if (readings.length === 0) return [];
    const points = readings.map((reading) => ({
      x: display.number("lift", reading.lift_m),
      y: display.number("flow", reading.mean_m3_s),
      kind: "good" as const,
    }));
    const name = sample.n > 1 ? "Mean" : "Measured";
    const series: Series = {
      name,
      label: name,
      style: theme.series.latest,
      curve: points.map(({ x, y }) => [x, y] as const),
      points,
    };
    const band = readings.map((reading) => ({
      x: display.number("lift", reading.lift_m),
      low: display.number("flow", reading.low_m3_s),
      high: display.number("flow", reading.high_m3_s),
    }));
    return [{ side, series, band }];
  });
}
