import type { DrawnLabel, DrawnStep, TrueSize } from "../sheet/content.ts";
import { LINE, textWidth } from "./chart-text.ts";
import { type Drawing, type DrawingItem, type PathCommand, roundPoint } from "./drawing.ts";
import {
  centredLabel,
  labelsUnder,
  labelText,
  type PlacedGroup,
  placeLabelsBeside,
  type TrueSizeEnv,
} from "./true-size-labels.ts";

/** Points per millimetre. */
const MM = 72 / 25.4;
/** Margin for the width of the outermost lines [pt]. */
const EDGE = 1;
/** Gap between the labels and the scale bar [pt]. */
const BELOW = 7;
/** Height of the scale bar's end marks [pt]. */
const MARK = 5;

/** Draws at 1 : 1, with labels beside the drawing, or under it if they do not fit. Undefined if the drawing alone is too wide. */
export function drawTrueSize(content: TrueSize, room: number, env: TrueSizeEnv): Drawing | undefined {
  const bounds = contentBounds(content);
  const size = {
    width: (bounds.right - bounds.left) * MM + 2 * EDGE,
    height: (bounds.bottom - bounds.top) * MM + 2 * EDGE,
  };
  const toDrawing = ([x, y]: readonly [number, number]) =>
    [roundPoint(EDGE + (x - bounds.left) * MM), roundPoint(EDGE + (y - bounds.top) * MM)] as const;
  const shapes = content.shapes.map(
    ({ steps, stroke, fill }): DrawingItem => ({
      kind: "path",
      role: "shape",
      d: steps.map((step) => pathCommand(step, toDrawing)),
      ...(fill ? { fill: fill.color } : {}),
      ...(stroke ? { stroke: { ...stroke, join: "round" } } : {}),
    }),
  );
  const isInside = ({ lines, inside = 0 }: DrawnLabel) =>
    lines.every((line) => textWidth(env.measure)(line) <= inside * MM);
  const insides = content.labels.filter(isInside);
  const outsides = content.labels.filter((label) => !isInside(label));
  const text = placeLabelsBeside(outsides, size, toDrawing, env);
  const labels = text.width <= room ? text : labelsUnder(outsides, size, room, env);
  const bar = scaleBar(content.scaleBar, labels.height + BELOW, env);
  const width = Math.max(labels.width, bar.width);
  if (width > room) return undefined;
  return {
    width,
    height: bar.height,
    items: [
      ...shapes,
      ...insides.flatMap((label) => centredLabel(label, toDrawing(label.at), env)),
      ...labels.items,
      ...bar.items,
    ],
  };
}

function pathCommand(
  step: DrawnStep,
  toDrawing: (at: readonly [number, number]) => readonly [number, number],
): PathCommand {
  switch (step.kind) {
    case "move":
      return ["M", ...toDrawing(step.to)];
    case "line":
      return ["L", ...toDrawing(step.to)];
    case "curve":
      return ["C", ...toDrawing(step.first), ...toDrawing(step.second), ...toDrawing(step.to)];
    case "close":
      return ["Z"];
  }
}

function contentBounds({ shapes, scaleBar }: TrueSize) {
  const points = shapes.flatMap(({ steps }) =>
    steps.flatMap((step) =>
      step.kind === "close" ? [] : step.kind === "curve" ? [step.first, step.second, step.to] : [step.to],
    ),
  );
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  const left = Math.min(...xs);
  return { left, right: Math.max(...xs, left + scaleBar.length), top: Math.min(...ys), bottom: Math.max(...ys) };
}

/** Scale bar with its parts marked and its length as text. */
function scaleBar({ length, parts, label }: TrueSize["scaleBar"], top: number, env: TrueSizeEnv): PlacedGroup {
  const y = roundPoint(top + MARK);
  const at = (part: number) => roundPoint(EDGE + (part / parts) * length * MM);
  const marks = Array.from({ length: parts + 1 }, (_, part): readonly PathCommand[] => [
    ["M", at(part), y],
    ["L", at(part), roundPoint(y - (part % parts === 0 ? MARK : MARK / 2))],
  ]);
  const bar: readonly PathCommand[] = [
    ["M", at(0), y],
    ["L", at(parts), y],
  ];
  const x = at(parts) + 5;
  return {
    width: x + textWidth(env.measure)(label),
    height: top + LINE,
    items: [
      ...[bar, ...marks].map(
        (d): DrawingItem => ({
          kind: "path",
          role: "axis",
          d,
          stroke: { color: env.colors.ink, width: 0.75, cap: "butt" },
        }),
      ),
      labelText(label, x, y, env),
    ],
  };
}
