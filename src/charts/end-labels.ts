import type { ChartEnv } from "./chart-env.ts";
import { BASELINE, chartText, type FittedText, fitText, LEAD, LINE, textWidth } from "./chart-text.ts";
import { type DrawingItem, roundPoint } from "./drawing.ts";
import { type Box, bottom, type Point, right } from "./geometry.ts";
import { END_GAP } from "./line-ends.ts";
import { MARKER_REACH } from "./markers.ts";
import { placeLabels } from "./place-labels.ts";

/** A fitted label; an end label also has its line's end and colour. */
export type Label = { readonly text: FittedText; readonly color: string };
export type EndLabel = Label & { readonly lineColor: string; readonly end: Point };

export const labelHeight = ({ lines }: FittedText) => LINE + (lines.length - 1) * LEAD;

/** A label's lines from the top left corner (x, top). */
export const labelLines = ({ text, color }: Label, x: number, top: number, { measure }: ChartEnv) =>
  text.lines.map((line, i) => chartText(line, x, top + BASELINE + i * LEAD, "left", { role: "label", color }, measure));

/** Leader from beside a line's end to its label. */
export function leader({ end: [x, y], lineColor }: EndLabel, [toX, toY]: Point): DrawingItem {
  const length = Math.hypot(toX - x, toY - y);
  const start = Math.min(1, MARKER_REACH / length);
  return {
    kind: "path",
    role: "label",
    d: [
      ["M", roundPoint(x + (toX - x) * start), roundPoint(y + (toY - y) * start)],
      ["L", roundPoint(toX), roundPoint(toY)],
    ],
    stroke: { color: lineColor, width: 0.5 },
  };
}

/** Reach of the column above and below the panel [pt]. */
const REACH = 5;
/** Largest move without a leader [pt]. */
const UNMOVED = 2;

/** Labels in a column right of the panel, with leaders where they were moved. */
export function labelColumn(labels: readonly EndLabel[], plot: Box, env: ChartEnv): readonly DrawingItem[] {
  const [start, end] = [plot.y - REACH, bottom(plot) + REACH];
  const crowded = labels.reduce((sum, { text }) => sum + labelHeight(text), 0) > end - start;
  const column = crowded ? labels.map((label) => singleLineLabel(label, env)) : labels;
  const middles = placeLabels(
    column.map(({ end: [, y], text }) => ({ at: y, size: labelHeight(text) })),
    start,
    end,
  );
  const x = right(plot) + END_GAP;
  return column.flatMap((label, i): DrawingItem[] => {
    const middle = middles[i];
    if (middle === undefined) return [];
    const beside = Math.abs(middle - label.end[1]) <= UNMOVED && label.end[0] >= right(plot) - 1;
    return [
      ...(beside ? [] : [leader(label, [x - 2, middle])]),
      ...labelLines(label, x, middle - labelHeight(label.text) / 2, env),
    ];
  });
}

const singleLineLabel = (label: EndLabel, env: ChartEnv): EndLabel =>
  label.text.lines.length === 1
    ? label
    : { ...label, text: fitText(label.text.lines.join(" "), label.text.width, 1, textWidth(env.measure)) };
