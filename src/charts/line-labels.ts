import type { LineChart } from "../sheet/content.ts";
import type { ChartEnv } from "./chart-env.ts";
import { onAxis } from "./check-axis.ts";
import { inColumn } from "./column-labels.ts";
import type { DrawingItem } from "./drawing.ts";
import { type Fitted, fitText } from "./fit-text.ts";
import { freeSpot, hits, type Obstacles } from "./free-spot.ts";
import { bottom, boxPath, inside, type Point, right } from "./geometry.ts";
import { type EndLabel, heightOf, type Label, leader, linesOf } from "./label-items.ts";
import { endColor, fitEnd, type LineEnd, lineEnds } from "./line-ends.ts";
import { obstaclesOf, type ToPoint } from "./line-obstacles.ts";
import { MARKER_REACH } from "./markers.ts";
import type { Box } from "./scenegraph.ts";
import { widthIn } from "./type.ts";

/** A line that stops this far before the panel's side may be named inside the panel [pt]. */
const EARLY = 14;
/** One that stops further from it, as a share of the panel, is named inside: the way to the side would be longer than any crossing. */
const FAR = 0.3;
/** From a line's end to its name inside the panel, and steps further away that are tried [pt]. */
const NEAR = 6.5;
const STEP = 5;
const STEPS = 9;

/** Names for everything a line chart shows, placed so that none touches another, nor a line where that can be helped. */
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
  // Most charts name all their lines beside the panel, and never ask what is in it.
  const obstacles = (): Obstacles => {
    fixed ??= obstaclesOf(chart, plot, toPoint);
    return { ...fixed, boxes: [...fixed.boxes, ...taken] };
  };
  const put = (label: Label, box: Box) => {
    items.push(...onPaper(label, box, env));
    taken.push(box);
  };

  for (const mark of chart.marks ?? []) {
    if (mark.axis !== "x" || mark.label.trim() === "" || !onAxis(chart.x, mark.at)) continue;
    const text = fitText(mark.label, plot.width / 2, 2, widthIn(env.measure));
    const box = freeSpot(besideLine(toPoint(mark.at, chart.y.start)[0], text, plot), obstacles());
    if (box) put({ text, color: env.colors.quiet }, box);
  }

  const column: EndLabel[] = [];
  for (const end of lineEnds(chart)) {
    const label = labelOf(end, toPoint, chartWidth, env);
    const near = nearEnd(label, plot);
    const spot = near.length > 0 ? clearSpot(label, near, plot, obstacles()) : undefined;
    if (!spot) {
      column.push(label);
      continue;
    }
    if (spot.leader) items.push(leader(label, spot.leader));
    put(label, spot.box);
  }
  return [...items, ...inColumn(column, plot, env)];
}

function labelOf(end: LineEnd, toPoint: ToPoint, chartWidth: number, env: ChartEnv): EndLabel {
  const lineColor = end.look.kind === "series" ? end.look.color : env.colors.quiet;
  return {
    text: fitEnd(end.text, chartWidth, env.measure),
    color: endColor(end, env),
    lineColor,
    end: toPoint(end.x, end.y),
  };
}

/** Places for the word of a line across the panel: along it, from the top, right of it and left. */
function besideLine(x: number, text: Fitted, plot: Box): readonly Box[] {
  const size = { width: text.width, height: heightOf(text) };
  const boxes: Box[] = [];
  for (let y = plot.y + 2; y + size.height <= bottom(plot) - 2; y += 3) {
    boxes.push({ x: x + 3.5, y, ...size }, { x: x - 3.5 - size.width, y, ...size });
  }
  return boxes.filter((box) => inside(box, plot));
}

/** A place for a label inside the panel, and where its leader ends if it needs one. */
type Spot = { readonly box: Box; readonly leader?: Point };

/**
 * The nearest clear place for the name of a line that stops inside the panel, whose leader crosses least. Near the panel's side
 * a leader that crosses anything would mislead: the name stands better beside the panel.
 */
function clearSpot(label: EndLabel, near: readonly Spot[], plot: Box, obstacles: Obstacles): Spot | undefined {
  const [x, y] = label.end;
  const crossings = ({ box, leader }: Spot): number => {
    if (!leader) return 0;
    const [top, foot] = box.y < y ? [leader[1], y - MARKER_REACH] : [y + MARKER_REACH, leader[1]];
    return hits({ x: x - 0.25, y: top, width: 0.5, height: Math.max(0, foot - top) }, obstacles, 0);
  };
  const clear = near.filter(({ box }) => inside(box, plot) && hits(box, obstacles) === 0);
  const counts = clear.map(crossings);
  const least = Math.min(...counts);
  return least > 0 && right(plot) - x < FAR * plot.width ? undefined : clear[counts.indexOf(least)];
}

/** Places next to the end of a line that stops inside the panel, the nearest first. */
function nearEnd({ end: [x, y], text }: EndLabel, plot: Box): readonly Spot[] {
  if (x > right(plot) - EARLY) return [];
  const size = { width: text.width, height: heightOf(text) };
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

/** A label inside the panel, on a patch of paper so that the grid does not run through it. */
function onPaper(label: Label, box: Box, env: ChartEnv): readonly DrawingItem[] {
  const patch = boxPath({ ...box, x: box.x - 1, width: box.width + 2 });
  return [{ kind: "path", role: "shape", d: patch, fill: env.colors.paper }, ...linesOf(label, box.x, box.y, env)];
}
