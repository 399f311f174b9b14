import type { ComparisonPoint } from "../compared.ts";
import type { DotStrip, FlowPanel, FlowPanelCell } from "../content.ts";
import { type Context, endStages, flowedFigures, flowedPorts, overallComparison } from "../context.ts";
import { hasMixedZone, hasOwnZone, type PanelCurves } from "../flow-panel.ts";
import { otherHeadNotes } from "../other-head-notes.ts";
import { portNotes } from "../port-notes.ts";
import { presentItems } from "../section.ts";
import { averageChangeWords, averageVerdict } from "./average-change.ts";
import { readingMarkWords } from "./chart-marks.ts";
import { differenceWords, formatPressure, pressureConversionWords } from "./conditions.ts";
import { dateSpan } from "./dates.ts";
import { joinWords, lowercaseFirst } from "./text.ts";

type Marks = {
  /** Error bars are drawn, too small to be drawn, or not known. */
  readonly bars: boolean | undefined;
  readonly points: readonly (ComparisonPoint | undefined)[];
  readonly strips: readonly DotStrip[];
};

/** Conditions of the panels, then the marks that are on them; no mark is named that is not there. */
export function panelCaption(
  context: Context,
  panels: readonly FlowPanelCell[],
  curves: readonly PanelCurves[],
  { bars, points, strips }: Marks,
): string {
  const { display, model } = context;
  const { last } = endStages(context);
  const drawn = panels.flatMap(({ chart }) => chart.series.flatMap((series) => series.points));
  const readings = curves.flatMap(({ side }) =>
    context.stages.flatMap((stage) => flowedFigures(stage, side)?.readings ?? []),
  );
  const sides = curves.map(({ side }) => side);
  const many = context.stages.length > 1;
  const rings = panels.some(({ chart }) => chart.series.some(({ ring }) => ring));
  const leftOut = [...new Set(curves.flatMap(({ leftOut: names }) => names))];
  const shown = context.stages.filter(({ name }) => !leftOut.includes(name));
  const ports = portNotes(context, sides, shown, "Lines");
  return presentItems<string>([
    `Flow at ${formatPressure(model.reference.testPressure, display)}${convertedWords(readings, display)}${measuredWords(context)}.`,
    ...ports,
    ports.length === 1 &&
      flowedPorts(last, sides).some(({ flowed }) => (flowed.curve?.cylinders.length ?? flowed.n) > 1) &&
      "Numbers are means over the ports of the curve.",
    gainWords(context, panels, curves),
    points.some((point) => point?.interpolated) && "At the cam: between two readings.",
    rings && `Grey rings: ${context.stages[0]?.name.toLowerCase()}.`,
    ...readingMarkWords(drawn),
    bars === true && `Bars show ±${many && last ? `, ${last.name.toLowerCase()} only` : ""}.`,
    bars === false && "± hardly larger than the marks.",
    strips.length > 0 && stripWords(curves, strips),
    leftOut.length > 0 && `Not drawn: ${joinWords(leftOut.map(lowercaseFirst))}.`,
    ...otherHeadNotes(context),
    ...differenceWords(curves.flatMap(({ pair }) => pair ?? [])),
  ]).join(" ");
}

/** The same in few words, with the averages of both sides, for a page with one panel. */
export function briefCaption(
  context: Context,
  panels: readonly { readonly chart: FlowPanel }[],
  { side, leftOut, alike }: PanelCurves,
  { bars, points }: Omit<Marks, "strips">,
): string {
  const { display, model } = context;
  const readings = context.stages.flatMap((stage) => flowedFigures(stage, side)?.readings ?? []);
  const shown = context.stages.filter(({ name }) => !leftOut.includes(name));
  const pairs = context.sides.flatMap((one) => overallComparison(context, one) ?? []);
  const tinted = panels.some(({ chart }) => chart.gain !== undefined);
  const said = pairs.flatMap((pair) => averageChangeWords(pair) ?? []);
  return presentItems<string>([
    `At ${formatPressure(model.reference.testPressure, display)}${convertedWords(readings, display)}${points.some((point) => point?.interpolated) ? "; at the cam, between readings" : ""}.`,
    ...said,
    tinted && `Tinted: the ${side}'s.`,
    ...portNotes(context, context.sides, shown, "Lines"),
    alike && `Grey rings: ${context.stages[0]?.name.toLowerCase()}.`,
    ...readingMarkWords(panels.flatMap(({ chart }) => chart.series.flatMap((series) => series.points))),
    bars === true && "Bars show ±.",
    leftOut.length > 0 && `Not drawn: ${joinWords(leftOut.map(lowercaseFirst))}.`,
    ...differenceWords(pairs),
  ]).join(" ");
}

const convertedWords = (...of: Parameters<typeof pressureConversionWords>) => {
  const words = pressureConversionWords(...of);
  return words === undefined ? "" : `, ${lowercaseFirst(words.replace(/\.$/, ""))}`;
};

/** When the stages were measured. */
function measuredWords({ stages }: Context): string {
  const days = stages.flatMap(({ stage }) => stage.date ?? []).toSorted();
  const [from, to] = [days[0], days.at(-1)];
  return from === undefined || to === undefined ? "" : `, ${dateSpan(from, to)}`;
}

/** What the tint means; each word only where a panel has it. */
function gainWords(
  { display }: Context,
  panels: readonly FlowPanelCell[],
  curves: readonly PanelCurves[],
): string | undefined {
  const tinted = curves.filter((_, i) => panels[i]?.chart.gain !== undefined).flatMap(({ pair }) => pair ?? []);
  const [first] = tinted;
  if (!first) return undefined;
  const words = tinted.map((pair) => {
    const verdict = averageVerdict(pair);
    return verdict === "clear gain" ? "gain" : verdict === "clear loss" ? "loss" : "difference";
  });
  const from = Math.min(...tinted.map(({ from_lift_m = 0 }) => from_lift_m));
  return `Tinted: the average ${joinWords([...new Set(words)])}, from ${display.full("lift", from)}.`;
}

/** What is drawn on the strips. */
export function stripWords(curves: readonly PanelCurves[], strips: readonly DotStrip[]): string {
  const pairs = curves.flatMap(({ pair }) => pair ?? []);
  const joint = pairs.some(
    (pair) => !hasOwnZone(pair) && pair.changes.some((change) => change.joint_uncertainty_m3_s !== undefined),
  );
  const dots = strips.flatMap((strip) => strip.dots);
  return presentItems<string>([
    `Grey zone: the ± of the change${joint ? ", for all lifts together" : ""}.`,
    pairs.some(hasMixedZone) && "Wider for a lift that stands alone, narrower for neighbours that agree.",
    dots.some(({ hollow }) => !hollow) && "A filled dot is clear of it.",
    dots.some(({ hollow }) => hollow) && "A hollow dot is within it: a repeat may differ by as much.",
    strips.some(({ gaps }) => gaps) && "–: no comparison.",
  ]).join(" ");
}
