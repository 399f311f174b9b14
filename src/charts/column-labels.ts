import type { ChartEnv } from "./chart-env.ts";
import type { DrawingItem } from "./drawing.ts";
import { fitText } from "./fit-text.ts";
import { bottom, right } from "./geometry.ts";
import { type EndLabel, heightOf, leader, linesOf } from "./label-items.ts";
import { END_GAP } from "./line-ends.ts";
import { placeLabels } from "./place-labels.ts";
import type { Box } from "./scenegraph.ts";
import { widthIn } from "./type.ts";

/** How far the column reaches above and below the panel [pt]. */
const REACH = 5;
/** A label moved less than this needs no leader [pt]. */
const UNMOVED = 2;

/** Labels right of the panel, with a leader from the line's end where the label does not stand beside it. */
export function inColumn(labels: readonly EndLabel[], plot: Box, env: ChartEnv): readonly DrawingItem[] {
  const [start, end] = [plot.y - REACH, bottom(plot) + REACH];
  const crowded = labels.reduce((sum, { text }) => sum + heightOf(text), 0) > end - start;
  const column = crowded ? labels.map((label) => onOneLine(label, env)) : labels;
  const middles = placeLabels(
    column.map(({ end: [, y], text }) => ({ at: y, size: heightOf(text) })),
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
      ...linesOf(label, x, middle - heightOf(label.text) / 2, env),
    ];
  });
}

const onOneLine = (label: EndLabel, env: ChartEnv): EndLabel =>
  label.text.lines.length === 1
    ? label
    : { ...label, text: fitText(label.text.lines.join(" "), label.text.width, 1, widthIn(env.measure)) };
