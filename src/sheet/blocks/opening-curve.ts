import type { LineChart, Series } from "../content.ts";
import type { BlockBuilder } from "../context.ts";
import { sharedAxes } from "../flow-curves.ts";
import { niceAxis } from "../nice-axis.ts";
import { section } from "../section.ts";
import { lineAlt } from "../words/chart-alt.ts";
import { pressure } from "../words/conditions.ts";
import { capital } from "../words/sentence.ts";
import { CHART_HEIGHT } from "./flow-chart.ts";

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
  const angles = panels.flatMap(({ series }) => series.flatMap(({ curve }) => curve.map(([angle]) => angle)));
  const { y } = sharedAxes(
    panels.map(({ series }) => series),
    { x: "", y: `Flow at ${pressure(model.reference.testPressure, display)} (${display.unit("flow")})` },
  );
  const x = { title: "Crank angle (°)", ...niceAxis(Math.min(...angles), Math.max(...angles), 6) };
  return section(place, "Flow over the cam's opening", [
    {
      kind: "charts",
      height: place.cell.height ?? CHART_HEIGHT,
      charts: panels.map(({ side, series }) => {
        const chart: LineChart = { kind: "line", x, y, series };
        return { title: capital(side), chart, alt: lineAlt(`${side} flow over the cam's open period`, chart) };
      }),
      caption: "Calculated: bench flow at the lift that the cam gives at each crank angle.",
    },
  ]);
};
