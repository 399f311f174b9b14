import type { SideFigures } from "../../figures/figures.ts";
import type { Side } from "../../model/model.ts";
import type { BarChart, ChartRow, Table, TableCell } from "../content.ts";
import { type BlockBuilder, type Context, endStages, flowedFigures } from "../context.ts";
import { formatPercent } from "../display.ts";
import { EMPTY_CELL } from "../flow-columns.ts";
import { niceAxis } from "../nice-axis.ts";
import { section } from "../section.ts";
import { barAlt } from "../words/chart-alt.ts";
import { sidePortsWords } from "../words/identity.ts";
import { capitalize } from "../words/text.ts";

/** Height of the bars [pt]: few numbers need little room. */
const BAR_HEIGHT = 120;

/** Port to port: what each cylinder flowed, where more than one was measured. */
export const cylinders: BlockBuilder = (context, place) => {
  const { last } = endStages(context);
  const panels = context.sides.flatMap((side): Panel[] => {
    const figures = flowedFigures(last, side);
    return figures && figures.cylinders.length > 1 ? [{ side, figures }] : [];
  });
  if (panels.length === 0) return [];
  // Dots show the same on a finer scale.
  if (context.blocks.includes("port-dots"))
    return section(place, undefined, [{ ...cylinderTable(context, panels), notes: [] }]);
  return section(place, "Port to port", [
    { kind: "charts", height: place.cell.height ?? BAR_HEIGHT, charts: cylinderCharts(context, panels) },
    cylinderTable(context, panels),
  ]);
};

type Panel = { readonly side: Side; readonly figures: SideFigures };

function cylinderCharts({ display, theme }: Context, panels: readonly Panel[]): ChartRow["charts"] {
  const means = panels.flatMap(({ figures }) =>
    figures.cylinders.map(({ mean_flow_m3_s }) => display.number("flow", mean_flow_m3_s)),
  );
  const y = { title: `Average flow (${display.unit("flow")})`, ...niceAxis(0, Math.max(0, ...means) || 1, 5) };
  return panels.map(({ side, figures }) => {
    const chart: BarChart = {
      kind: "bar",
      x: { title: "Cylinder", categories: figures.cylinders.map(cylinderName) },
      y,
      bars: figures.cylinders.map((cylinder) => ({
        category: cylinderName(cylinder),
        value: display.number("flow", cylinder.mean_flow_m3_s),
        color: theme.series.latest.color,
        hollow: false,
        label: display.digits("flow", cylinder.mean_flow_m3_s),
      })),
      groups: [],
    };
    return {
      title: capitalize(side),
      chart,
      alt: barAlt(`average ${side} flow of each cylinder`, chart, spreadWords(side, figures)),
    };
  });
}

function cylinderTable({ display }: Context, panels: readonly Panel[]): Table {
  const unit = display.unit("flow");
  const names = [...new Set(panels.flatMap(({ figures }) => figures.cylinders.map(cylinderName)))];
  return {
    kind: "table",
    title: "Flow of each cylinder",
    columns: [
      { title: "Cylinder", align: "left" },
      ...panels.flatMap(() => [
        { title: "Average", align: "decimal" } as const,
        { title: "Peak", align: "decimal" } as const,
      ]),
    ],
    groups: [{ text: "", span: 1 }, ...panels.map(({ side }) => ({ text: `${capitalize(side)} (${unit})`, span: 2 }))],
    rows: names.map((name): TableCell[] => [
      { text: name },
      ...panels.flatMap(({ figures }) => {
        const found = figures.cylinders.find((cylinder) => cylinderName(cylinder) === name);
        return found
          ? [
              { text: display.digits("flow", found.mean_flow_m3_s) },
              { text: display.digits("flow", found.peak_flow_m3_s) },
            ]
          : [EMPTY_CELL, EMPTY_CELL];
      }),
    ]),
    rowHeads: true,
    fifths: false,
    notes: panels.map(({ side, figures }) =>
      [sidePortsWords(side, figures.flowed), spreadWords(side, figures)].filter(Boolean).join(" "),
    ),
  };
}

const cylinderName = (cylinder: SideFigures["cylinders"][number]) =>
  `${cylinder.cylinder}${cylinder.hand ? ` ${cylinder.hand}` : ""}`;

const spreadWords = (side: string, { cylinder_spread: ratio }: SideFigures): string | undefined =>
  ratio === undefined
    ? undefined
    : `${capitalize(side)} port to port: highest less lowest is ${formatPercent(ratio)} of the mean.`;
