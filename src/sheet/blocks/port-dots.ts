import type { PortToPort, SetSideFigures, SideFigures } from "../../figures/figures.ts";
import type { Side } from "../../model/model.ts";
import type { Axis, DotStrip, Part } from "../content.ts";
import { type BlockBuilder, type Context, endStages, flowedFigures, type Placement } from "../context.ts";
import { PLOT } from "../flow-panel.ts";
import { evenAxis } from "../panel-axis.ts";
import { joinNotes, section } from "../section.ts";
import { stripAlt } from "../words/chart-alt.ts";
import { sidePortsWords } from "../words/identity.ts";
import { outsideWords, spreadWords } from "../words/port-to-port.ts";
import { capitalize } from "../words/text.ts";
import { LABELS } from "./flow-panels.ts";

/** One side of a stage or set of which two ports or more were flowed. */
export type PortPanel = {
  readonly side: Side;
  readonly figures: SideFigures | SetSideFigures;
  readonly ports: PortToPort;
};

/** Each cylinder's mean flow as a dot about the mean of all, in percent, both sides on one scale. */
export const portDots: BlockBuilder = (context, place) => {
  const { last } = endStages(context);
  const panels = context.sides.flatMap((side): PortPanel[] => {
    const figures = flowedFigures(last, side);
    return figures?.port_to_port ? [{ side, figures, ports: figures.port_to_port }] : [];
  });
  return section(place, "Port to port", portStrips(context, place, panels, true));
};

/** The dots of each side whose ports share a lift; nothing where none does. */
export function portStrips(
  context: Context,
  place: Placement,
  panels: readonly PortPanel[],
  isCaptioned: boolean,
): readonly Part[] {
  const drawn = panels.filter(({ ports }) => ports.spread_ratio !== undefined);
  if (drawn.length === 0) return [];
  const reach = Math.max(...drawn.flatMap(({ ports }) => deviations(ports).map(({ y }) => Math.abs(y))));
  const y: Axis = { title: "%", ...evenAxis(reach, PORT_STEPS) };
  const height = place.cell.height ?? PLOT.strip + LABELS;
  return [
    {
      kind: "charts",
      height,
      ...(place.cell.height === undefined ? { grow: [height, PLOT.stripMost + LABELS] as const } : {}),
      charts: drawn.map(({ side, ports }) => {
        const chart = portStrip(context, ports, y);
        return {
          title: `${capitalize(side)} (%)`,
          chart,
          alt: stripAlt(`${side} flow of each cylinder about their mean`, chart, spreadWords(ports, context.display)),
        };
      }),
      ...(isCaptioned ? { caption: joinNotes(drawn.flatMap((panel) => captionWords(context, panel))).join(" ") } : {}),
    },
  ];
}

/** Ends of the scale, up and down from the mean [%]. */
const PORT_STEPS = [2, 5, 10, 20, 25, 50];

/** Place and deviation from the mean [%] of each cylinder that has one. */
const deviations = ({ cylinders }: PortToPort): readonly { readonly x: number; readonly y: number }[] =>
  cylinders.flatMap(({ cylinder, deviation_ratio: ratio }) =>
    ratio === undefined ? [] : [{ x: cylinder, y: 100 * ratio }],
  );

function portStrip({ theme }: Context, ports: PortToPort, y: Axis): DotStrip {
  const dots = deviations(ports);
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

/** Which ports were flowed, how far they lie apart, and those that have no dot. */
export const captionWords = (
  { display }: Context,
  { side, figures, ports }: PortPanel,
): readonly (string | undefined)[] => [
  "flowed" in figures ? sidePortsWords(side, figures.flowed) : `${capitalize(side)}:`,
  spreadWords(ports, display),
  ...outsideWords(figures).map(capitalize),
];
