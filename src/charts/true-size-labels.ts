import type { DrawnLabel, Sheet } from "../sheet/content.ts";
import type { Measure } from "../text/measure.ts";
import { BASELINE, chartText, LEAD, LINE, textWidth } from "./chart-text.ts";
import { type DrawingItem, type PathCommand, roundPoint } from "./drawing.ts";

export type TrueSizeEnv = { readonly measure: Measure; readonly colors: Sheet["theme"]["colors"] };

/** Gaps: drawing to labels, label to label [pt]. */
const BESIDE = 11;
const BETWEEN = 3;

type Size = { readonly width: number; readonly height: number };
export type PlacedGroup = Size & { readonly items: readonly DrawingItem[] };

/** Labels in a column right of the drawing, each near its point, with a leader. */
export function placeLabelsBeside(
  labels: readonly DrawnLabel[],
  size: Size,
  place: (at: readonly [number, number]) => readonly [number, number],
  env: TrueSizeEnv,
): PlacedGroup {
  if (labels.length === 0) return { ...size, items: [] };
  const set = labels
    .map((label) => ({ ...label, end: place(label.at), tall: LINE + (label.lines.length - 1) * LEAD }))
    .toSorted((a, b) => a.end[1] - b.end[1]);
  const height = Math.max(
    size.height,
    set.reduce((sum, { tall }) => sum + tall + BETWEEN, -BETWEEN),
  );
  const tops = spreadStack(
    set.map(({ end, tall }) => ({ wanted: end[1] - LINE / 2, tall })),
    height,
  );
  const x = size.width + BESIDE;
  const wide = Math.max(...labels.flatMap(({ lines }) => lines.map(textWidth(env.measure))));
  const items = set.flatMap(({ lines, end, color }, i): DrawingItem[] => [
    ...leaderLine([x - 2, tops[i]! + LINE / 2], end, env),
    ...lines.map((line, n) => labelText(line, x, tops[i]! + BASELINE + n * LEAD, env, color)),
  ]);
  return { width: x + wide, height, items };
}

/**
 * Tops for boxes in order, apart and between 0 and `height`, near their wanted tops: neighbours that would overlap are
 * pooled about the mean of their wanted tops.
 */
function spreadStack(
  boxes: readonly { readonly wanted: number; readonly tall: number }[],
  height: number,
): readonly number[] {
  const piles: { top: number; tall: number; count: number }[] = [];
  for (const { wanted, tall } of boxes) {
    let pile = { top: wanted, tall, count: 1 };
    for (let above = piles.at(-1); above && above.top + above.tall + BETWEEN > pile.top; above = piles.at(-1)) {
      piles.pop();
      const offset = above.tall + BETWEEN;
      const count = above.count + pile.count;
      const top = (above.top * above.count + (pile.top - offset) * pile.count) / count;
      pile = { top, tall: offset + pile.tall, count };
    }
    piles.push(pile);
  }
  const tops = piles.flatMap(({ top, count }, i) => {
    const first = piles.slice(0, i).reduce((sum, one) => sum + one.count, 0);
    let next = top;
    return boxes.slice(first, first + count).map(({ tall }) => {
      const own = next;
      next += tall + BETWEEN;
      return own;
    });
  });
  return clampStack(tops, boxes, height);
}

/** Pushes tops inwards from both ends. */
function clampStack(
  wanted: readonly number[],
  boxes: readonly { readonly tall: number }[],
  height: number,
): readonly number[] {
  const tops: number[] = [];
  let free = 0;
  for (const [i, top] of wanted.entries()) {
    tops.push(Math.max(free, top));
    free = tops[i]! + boxes[i]!.tall + BETWEEN;
  }
  let end = height;
  for (let i = tops.length - 1; i >= 0; i--) {
    tops[i] = Math.min(tops[i]!, end - boxes[i]!.tall);
    end = tops[i]! - BETWEEN;
  }
  return tops;
}

/** A leader from a label to its point, with a dot there. */
function leaderLine(
  [fromX, fromY]: readonly [number, number],
  [x, y]: readonly [number, number],
  { colors }: TrueSizeEnv,
): readonly DrawingItem[] {
  const r = 0.9;
  const dot: readonly PathCommand[] = [
    ["M", roundPoint(x - r), y],
    ["L", x, roundPoint(y - r)],
    ["L", roundPoint(x + r), y],
    ["L", x, roundPoint(y + r)],
    ["Z"],
  ];
  const line: readonly PathCommand[] = [
    ["M", roundPoint(fromX), roundPoint(fromY)],
    ["L", x, y],
  ];
  return [
    { kind: "path", role: "label", d: line, stroke: { color: colors.quiet, width: 0.5 } },
    { kind: "path", role: "label", d: dot, fill: colors.ink },
  ];
}

/** Labels under the drawing, as many on a line as fit. */
export function labelsUnder(labels: readonly DrawnLabel[], size: Size, room: number, env: TrueSizeEnv): PlacedGroup {
  const width = textWidth(env.measure);
  const rows: string[] = [];
  for (const text of labels.map(({ lines }) => lines.join(" "))) {
    const longer = rows.length === 0 ? text : `${rows.at(-1)} · ${text}`;
    if (rows.length > 0 && width(longer) <= room) rows[rows.length - 1] = longer;
    else rows.push(text);
  }
  return {
    width: Math.max(size.width, ...rows.map(width)),
    height: size.height + rows.length * LEAD,
    items: rows.map((row, i) => labelText(row, 0, size.height + BASELINE + i * LEAD, env)),
  };
}

/** Lines of text centred on a point. */
export const centredLabel = (
  { lines, color }: DrawnLabel,
  [x, y]: readonly [number, number],
  env: TrueSizeEnv,
): readonly DrawingItem[] =>
  lines.map((line, n) => {
    const top = y - (LINE + (lines.length - 1) * LEAD) / 2;
    return labelText(line, x - textWidth(env.measure)(line) / 2, top + BASELINE + n * LEAD, env, color);
  });

export const labelText = (text: string, x: number, y: number, { measure, colors }: TrueSizeEnv, color = colors.ink) =>
  chartText(text, x, y, "left", { role: "label", color }, measure);
