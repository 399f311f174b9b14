import type { LineChart, Series } from "../content.ts";
import type { BlockBuilder } from "../context.ts";
import { sharedAxes } from "../flow-curves.ts";
import { section } from "../section.ts";
import { lineAlt } from "../words/chart-alt.ts";
import { capitalize } from "../words/text.ts";
import { CHART_HEIGHT } from "./flow-chart.ts";

/** Area along the port from the manifold face; only where it was measured at that stage. */
export const portArea: BlockBuilder = (context, place) => {
  const { display, withheld } = context;
  if (withheld.sections) return [];
  const panels = context.sides.flatMap((side) => {
    const series = context.stages.flatMap((stage): Series[] => {
      const port = stage.stage.ports[side];
      if (!port || port.sections.length < 2 || port.notRemeasured.includes("sections")) return [];
      const points = port.sections.map(({ at, area }) => ({
        x: display.number("length", at),
        y: display.number("area", area),
        kind: "good" as const,
      }));
      return [
        {
          name: stage.name,
          label: stage.name,
          style: stage.style,
          curve: points.map(({ x, y }) => [x, y] as const),
          points,
        },
      ];
    });
    return series.length > 0 ? [{ side, series }] : [];
  });
  if (panels.length === 0) return [];
  const axes = sharedAxes(
    panels.map(({ series }) => series),
    { x: `From the manifold face (${display.unit("length")})`, y: `Area (${display.unit("area")})` },
  );
  return section(place, "Area along the port", [
    {
      kind: "charts",
      height: place.cell.height ?? CHART_HEIGHT,
      charts: panels.map(({ side, series }) => {
        const chart: LineChart = { kind: "line", ...axes, series };
        return { title: capitalize(side), chart, alt: lineAlt(`area along the ${side} port`, chart) };
      }),
      caption: "Measured along the centreline. Straight lines join the sections.",
    },
  ]);
};
