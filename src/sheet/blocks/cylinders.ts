import type { SideFigures } from "../../figures/figures.ts";
import type { BarChart, TableCell } from "../content.ts";
import { type BlockBuilder, endStages, flowed } from "../context.ts";
import { NONE } from "../flow-columns.ts";
import { niceAxis } from "../nice-axis.ts";
import { percent } from "../percent.ts";
import { section } from "../section.ts";
import { barAlt } from "../words/chart-alt.ts";
import { flowedPorts } from "../words/identity.ts";
import { capital } from "../words/text.ts";

/** Height of the bars [pt]: few numbers need little room. */
const BAR_HEIGHT = 120;

/** Port to port: what each cylinder flowed, where more than one was measured. */
export const cylinders: BlockBuilder = (context, place) => {
  const { display, theme } = context;
  const { last } = endStages(context);
  const panels = context.sides.flatMap((side) => {
    const figures = flowed(last, side);
    return figures && figures.cylinders.length > 1 ? [{ side, figures }] : [];
  });
  if (panels.length === 0 || !last) return [];
  const unit = display.unit("flow");
  const keys = [...new Set(panels.flatMap(({ figures }) => figures.cylinders.map(nameOf)))];
  const means = panels.flatMap(({ figures }) =>
    figures.cylinders.map(({ mean_flow_m3_s }) => display.number("flow", mean_flow_m3_s)),
  );
  const y = { title: `Average flow (${unit})`, ...niceAxis(0, Math.max(0, ...means) || 1, 5) };
  return section(place, "Port to port", [
    {
      kind: "charts",
      height: place.cell.height ?? BAR_HEIGHT,
      charts: panels.map(({ side, figures }) => {
        const chart: BarChart = {
          kind: "bar",
          x: { title: "Cylinder", categories: figures.cylinders.map(nameOf) },
          y,
          bars: figures.cylinders.map((cylinder) => ({
            category: nameOf(cylinder),
            value: display.number("flow", cylinder.mean_flow_m3_s),
            color: theme.series.latest.color,
            hollow: false,
            label: display.digits("flow", cylinder.mean_flow_m3_s),
          })),
          groups: [],
        };
        return {
          title: capital(side),
          chart,
          alt: barAlt(`average ${side} flow of each cylinder`, chart, spread(side, figures)),
        };
      }),
    },
    {
      kind: "table",
      columns: [
        { title: "Cylinder", align: "left" },
        ...panels.flatMap(() => [
          { title: "Average", align: "decimal" } as const,
          { title: "Peak", align: "decimal" } as const,
        ]),
      ],
      groups: [{ text: "", span: 1 }, ...panels.map(({ side }) => ({ text: `${capital(side)} (${unit})`, span: 2 }))],
      rows: keys.map((key): TableCell[] => [
        { text: key },
        ...panels.flatMap(({ figures }) => {
          const found = figures.cylinders.find((cylinder) => nameOf(cylinder) === key);
          return found
            ? [
                { text: display.digits("flow", found.mean_flow_m3_s) },
                { text: display.digits("flow", found.peak_flow_m3_s) },
              ]
            : [NONE, NONE];
        }),
      ]),
      rowHeads: true,
      fifths: false,
      notes: panels.map(({ side, figures }) =>
        [flowedPorts(side, figures.flowed), spread(side, figures)].filter(Boolean).join(" "),
      ),
    },
  ]);
};

const nameOf = (cylinder: SideFigures["cylinders"][number]) =>
  `${cylinder.cylinder}${cylinder.hand ? ` ${cylinder.hand}` : ""}`;

const spread = (side: string, { cylinder_spread: ratio }: SideFigures): string | undefined =>
  ratio === undefined
    ? undefined
    : `${capital(side)} port to port: highest less lowest is ${percent(ratio)} of the mean.`;
