import type { Side } from "../../../model/model.ts";
import type { FlowPanel, FlowPanelCell, Series } from "../../content.ts";
import { type BlockBuilder, type Context, camLift } from "../../context.ts";
import { formatShortest } from "../../display.ts";
import { flowSeries } from "../../flow-curves.ts";
import { flowAt, type PanelCurves, panelAxes } from "../../flow-panel.ts";
import { presentItems, section } from "../../section.ts";
import { pairOf, type SideHead, sideHeads } from "../../side-by-side/heads.ts";
import { highestWords, type RibbonRun, ribbonRuns, ribbonStretches } from "../../side-by-side/ribbon.ts";
import { panelAlt } from "../../words/chart-alt.ts";
import { isWithinEverywhere } from "../../words/lead.ts";
import { capitalize, joinWords } from "../../words/text.ts";
import { HALF_PLOT, LABELS, WHOLE_PLOT } from "../flow-panels.ts";

/** Heights of a plot, and of the ribbon under it with its gap [pt]. */
const PLOT = { least: 94, most: 118 } as const;
const RIBBON = 17;

type Panel = PanelCurves & { readonly runs: readonly RibbonRun[] };

/** The one sentence by side: who is clearly higher where. */
export const sideLead: BlockBuilder = (context, place) => {
  const heads = sideHeads(context);
  if (heads.length < 2) return [];
  const words = context.sides.flatMap(
    (side) => highestWords(context, heads, side, ribbonRuns(context, heads, side)) ?? [],
  );
  return section(place, undefined, words.length === 0 ? [] : [{ kind: "lead", phrases: [{ text: words.join(" ") }] }]);
};

/** Flow of all heads, side by side, each panel over the ribbon of who is clearly higher. */
export const sideFlow: BlockBuilder = (context, place) => {
  const heads = sideHeads(context);
  const panels = heads.length < 2 ? [] : context.sides.flatMap((side) => panelOf(context, heads, side) ?? []);
  if (panels.length === 0) return [];
  const axes = panelAxes(context, panels, panels.length > 1 ? HALF_PLOT : WHOLE_PLOT, PLOT.least);
  const pressure = formatShortest(context.display, "pressure", context.model.reference.testPressure);
  const cells = panels.map((panel): FlowPanelCell => {
    const { side, runs } = panel;
    const ribbon = ribbonStretches(context, heads, runs);
    const cam = camLift(context, side);
    const at = cam === undefined ? undefined : context.display.number("lift", cam);
    const rings = crossings(context, heads, side);
    const chart: FlowPanel = {
      kind: "flow-panel",
      ...axes,
      series: panel.series,
      ...(at !== undefined && at < axes.x.end ? { cam: { at } } : {}),
      ...(rings.length > 0 ? { rings } : {}),
      ...(ribbon.length > 0 ? { ribbon } : {}),
    };
    const alt = panelAlt(
      `${side} flow of ${headsWords(heads)} against valve lift`,
      chart,
      highestWords(context, heads, side, runs),
    );
    return { heading: `${capitalize(side)} flow at ${pressure}`, chart, alt };
  });
  const below = LABELS + (cells.some(({ chart }) => chart.ribbon) ? RIBBON : 0);
  return section(place, undefined, [
    {
      kind: "flow-panels",
      panels: cells,
      height: PLOT.least + below,
      grow: [PLOT.least + below, PLOT.most + below],
      caption: caption(context, heads, panels),
    },
  ]);
};

const headsWords = (heads: readonly SideHead[]) => joinWords(heads.map(({ letter }) => letter));

function panelOf(context: Context, heads: readonly SideHead[], side: Side): Panel | undefined {
  const flowed = heads.filter(({ figures }) => figures[side]);
  if (flowed.length < 2) return undefined;
  const series = flowed
    .map(({ figures, letter, style }): Series => flowSeries(context, figures[side]!, letter, style, false))
    .toReversed();
  const [a, b] = flowed as [SideHead, SideHead];
  const pair = flowed.length === 2 ? pairOf(context, a, b, side) : undefined;
  const alike = pair !== undefined && isWithinEverywhere(pair);
  const runs = flowed.length === heads.length ? ribbonRuns(context, heads, side) : [];
  return { side, alike, leftOut: [], runs, series: alike ? oneCurve(series as [Series, Series]) : series };
}

/** Two curves within ± of one another: the marks of the other round the dots of the first, one name for both. */
const oneCurve = ([other, first]: readonly [Series, Series]): readonly Series[] => [
  { ...other, label: "", curve: [], ring: true },
  { ...first, label: `${first.name} and ${other.name}, within ±` },
];

/** Where a clear lead changes hands, of two heads. */
function crossings(context: Context, heads: readonly SideHead[], side: Side): NonNullable<FlowPanel["rings"]> {
  const [a, b] = heads;
  if (heads.length !== 2 || !a || !b) return [];
  const { display } = context;
  return (pairOf(context, a, b, side)?.crossovers_m ?? []).flatMap((lift) => {
    const flow = flowAt(a.figures[side]?.curve ?? [], lift);
    if (flow === undefined) return [];
    const label = `curves cross at ${display.digits("lift", lift)}`;
    return [{ x: display.number("lift", lift), y: display.number("flow", flow), label }];
  });
}

function caption(context: Context, heads: readonly SideHead[], panels: readonly Panel[]): string {
  const ribbons = panels.some(({ runs }) => runs.some(({ highest }) => highest !== "not judged"));
  const within = panels.some(({ runs }) => runs.some(({ highest }) => highest === "within"));
  const [first, ...others] = heads;
  const unlike = context.sides.flatMap((side) =>
    others.flatMap((head) => {
      const pair = pairOf(context, first!, head, side);
      return pair && !pair.like_for_like
        ? [`${head.letter} and A measured unlike: ${pair.differences.join("; ")}.`]
        : [];
    }),
  );
  return presentItems<string>([
    ribbons && `Bar: the higher head${within ? "; ±: too near to tell" : ""}.`,
    ...[...new Set(unlike)],
    unlike.length === 0 && "One bench and fixture.",
  ]).join(" ");
}
