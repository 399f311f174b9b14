import type { LineChart, Series } from "../content.ts";
import { type BlockBuilder, flowedFigures } from "../context.ts";
import { sharedAxes } from "../flow-curves.ts";
import { section } from "../section.ts";
import { lineAlt } from "../words/chart-alt.ts";
import { capitalize } from "../words/text.ts";
import { CHART_HEIGHT } from "./flow-chart.ts";

/** Coefficient on the curtain against lift ÷ diameter: valves of unlike size, compared. */
export const coefficientChart: BlockBuilder = (context, place) => {
  const panels = context.sides.flatMap((side) => {
    const series = context.stages.flatMap((stage): Series[] => {
      const points = (flowedFigures(stage, side)?.readings ?? []).flatMap((reading) =>
        reading.partial || reading.lift_to_diameter === undefined || reading.curtain_coefficient === undefined
          ? []
          : [
              {
                x: reading.lift_to_diameter,
                y: reading.curtain_coefficient,
                kind: reading.doubtful ? ("doubtful" as const) : reading.noisy ? ("noisy" as const) : ("good" as const),
              },
            ],
      );
      if (points.length === 0) return [];
      const curve = points.filter(({ kind }) => kind !== "doubtful").map(({ x, y }) => [x, y] as const);
      return [{ name: stage.name, label: stage.name, style: stage.style, curve, points }];
    });
    return series.length > 0 ? [{ side, series }] : [];
  });
  if (panels.length === 0) return [];
  const axes = sharedAxes(
    panels.map(({ series }) => series),
    { x: "Lift ÷ diameter", y: "Coefficient on the curtain" },
  );
  return section(place, "Coefficient on the curtain", [
    {
      kind: "charts",
      height: place.cell.height ?? CHART_HEIGHT,
      charts: panels.map(({ side, series }) => {
        const chart: LineChart = { kind: "line", ...axes, series };
        return {
          title: capitalize(side),
          chart,
          alt: lineAlt(`${side} coefficient on the curtain against lift ÷ diameter`, chart),
        };
      }),
      caption:
        "Calculated: flow as share of ideal flow through the curtain under the valve. Straight lines join the readings.",
    },
  ]);
};
