import type { LineChart } from "../sheet/content.ts";
import { isOnAxis } from "./axis.ts";
import type { ChartEnv } from "./chart-env.ts";
import { type FittedText, fitText, textWidth } from "./chart-text.ts";
import type { DrawingItem } from "./drawing.ts";
import { type EndLabel, type Label, labelColumn, labelHeight, labelLines, leader } from "./end-labels.ts";
import { type Box, bottom, boxPath, isBoxInside, type Point, right } from "./geometry.ts";
import { endLabelColor, fitEndLabel, type LineEnd, lineEnds } from "./line-ends.ts";
import { MARKER_REACH } from "./markers.ts";
import { chartObstacles, countHits, freeSpot, type Obstacles, type ToPoint } from "./obstacles.ts";

/** A line that ends this far before the panel's side may be labelled inside the panel [pt]. */
const EARLY = 14;
/** A line that ends further from the panel's side than this share of its width is always labelled inside the panel. */
const FAR_SHARE = 0.3;
/** Distance of a label inside the panel from its line's end, and the further steps tried [pt]. */
const NEAR = 6.5;
const STEP = 5;
const STEPS = 9;

/** Places the labels of a line chart without overlaps among them, and off the lines where possible. */
export function lineLabels(
  chart: LineChart,
  plot: Box,
  toPoint: ToPoint,
  chartWidth: number,
  env: ChartEnv,
): readonly DrawingItem[] {
  let fixed: Obstacles | undefined;
  const items: DrawingItem[] = [];
  const taken: Box[] = [];
  // Computed on demand: most charts label all their lines beside the panel.
  const obstacles = (): Obstacles => {
    fixed ??= chartObstacles(chart, plot, toPoint);
    return { ...fixed, boxes: [...fixed.boxes, ...taken] };
  };
  const put = (label: Label, box: Box) => {
    items.push(...labelOnPatch(label, box, env));
    taken.push(box);
  };

  for (const mark of chart.marks ?? []) {
    if (mark.axis !== "x" || mark.label.trim() === "" || !isOnAxis(chart.x, mark.at)) continue;
    const text = fitText(mark.label, plot.width / 2, 2, textWidth(env.measure));
    const box = freeSpot(markLabelBoxes(toPoint(mark.at, chart.y.start)[0], text, plot), obstacles());
    if (box) put({ text, color: env.colors.quiet }, box);
  }

  const column: EndLabel[] = [];
  for (const end of lineEnds(chart)) {
    const label = endLabel(end, toPoint, chartWidth, env);
    const near = spotsNearEnd(label, plot);
    const spot = near.length > 0 ? nearestClearSpot(label, near, plot, obstacles()) : undefined;
    if (!spot) {
      column.push(label);
      continue;
    }
    if (spot.leader) items.push(leader(label, spot.leader));
    put(label, spot.box);
  }
  return [...items, ...labelColumn(column, plot, env)];
}

function endLabel(end: LineEnd, toPoint: ToPoint, chartWidth: number, env: ChartEnv): EndLabel {
  const lineColor = end.look.kind === "series" ? end.look.color : env.colors.quiet;
  return {
    text: fitEndLabel(end.text, chartWidth, env.measure),
    color: endLabelColor(end, env),
    lineColor,
    end: toPoint(end.x, end.y),
  };
}

/** Candidate boxes for a vertical mark's label, along it from the top, on both sides. */
function markLabelBoxes(x: number, text: FittedText, plot: Box): readonly Box[] {
  const size = { width: text.width, height: labelHeight(text) };
  const boxes: Box[] = [];
  for (let y = plot.y + 2; y + size.height <= bottom(plot) - 2; y += 3) {
    boxes.push({ x: x + 3.5, y, ...size }, { x: x - 3.5 - size.width, y, ...size });
  }
  return boxes.filter((box) => isBoxInside(box, plot));
}

/** Candidate for a label inside the panel, with the end of its leader if it needs one. */
type Spot = { readonly box: Box; readonly leader?: Point };

/**
 * The nearest clear spot for a label inside the panel whose leader crosses least. Near the panel's side a crossing leader
 * would mislead, so the label goes beside the panel.
 */
function nearestClearSpot(label: EndLabel, near: readonly Spot[], plot: Box, obstacles: Obstacles): Spot | undefined {
  const [x, y] = label.end;
  const crossings = ({ box, leader }: Spot): number => {
    if (!leader) return 0;
    const [top, foot] = box.y < y ? [leader[1], y - MARKER_REACH] : [y + MARKER_REACH, leader[1]];
    return countHits({ x: x - 0.25, y: top, width: 0.5, height: Math.max(0, foot - top) }, obstacles, 0);
  };
  const clear = near.filter(({ box }) => isBoxInside(box, plot) && countHits(box, obstacles) === 0);
  const counts = clear.map(crossings);
  const least = Math.min(...counts);
  return least > 0 && right(plot) - x < FAR_SHARE * plot.width ? undefined : clear[counts.indexOf(least)];
}

/** Candidate spots near a line's end inside the panel, the nearest first. */
function spotsNearEnd({ end: [x, y], text }: EndLabel, plot: Box): readonly Spot[] {
  if (x > right(plot) - EARLY) return [];
  const size = { width: text.width, height: labelHeight(text) };
  const level = { box: { x: x + NEAR, y: y - size.height / 2, ...size } };
  const steps = Array.from({ length: STEPS }, (_, step) => NEAR + step * STEP);
  const lefts = [x - 3, x - size.width / 2, x + 3 - size.width];
  const spots = steps.flatMap((gap, step) =>
    [y + gap, y - gap - size.height].flatMap((top) =>
      lefts.map((left): Spot => {
        const box = { x: left, y: top, ...size };
        return step === 0 ? { box } : { box, leader: [x, top < y ? bottom(box) : top] };
      }),
    ),
  );
  return [level, ...spots];
}

/** A label inside the panel on a patch of paper colour that hides the grid. */
function labelOnPatch(label: Label, box: Box, env: ChartEnv): readonly DrawingItem[] {
  const patch = boxPath({ ...box, x: box.x - 1, width: box.width + 2 });
  return [{ kind: "path", role: "shape", d: patch, fill: env.colors.paper }, ...labelLines(label, box.x, box.y, env)];
}
