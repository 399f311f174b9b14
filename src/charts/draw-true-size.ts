import type { DrawnLabel, DrawnStep, Sheet, TrueSize } from "../sheet/content.ts";
import type { Measure } from "../text/measure.ts";
import type { Drawing, DrawingItem, PathCommand } from "./drawing.ts";
import { roundPoint } from "./round-point.ts";
import { BASELINE, chartText, LEAD, LINE, widthIn } from "./type.ts";

type Env = { readonly measure: Measure; readonly colors: Sheet["theme"]["colors"] };

/** Points in a millimetre. */
const MM = 72 / 25.4;
/** Air round the lines, so that their whole width lies inside [pt]. */
const EDGE = 1;
/** From the lines to the sizes beside them, from one size to the next, from all of it to the scale bar [pt]. */
const BESIDE = 11;
const BETWEEN = 3;
const BELOW = 7;
/** Height of the scale bar's end marks [pt]. */
const MARK = 5;

/** Draws at 1 : 1, its sizes beside it where the room allows, else under it. Undefined where the lines alone are too wide. */
export function drawTrueSize(content: TrueSize, room: number, env: Env): Drawing | undefined {
  const bounds = boundsOf(content);
  const size = {
    width: (bounds.right - bounds.left) * MM + 2 * EDGE,
    height: (bounds.bottom - bounds.top) * MM + 2 * EDGE,
  };
  const place = ([x, y]: readonly [number, number]) =>
    [roundPoint(EDGE + (x - bounds.left) * MM), roundPoint(EDGE + (y - bounds.top) * MM)] as const;
  const shapes = content.shapes.map(
    ({ steps, stroke, fill }): DrawingItem => ({
      kind: "path",
      role: "shape",
      d: steps.map((step) => command(step, place)),
      ...(fill ? { fill: fill.color } : {}),
      ...(stroke ? { stroke: { ...stroke, join: "round" } } : {}),
    }),
  );
  const isInside = ({ lines, inside = 0 }: DrawnLabel) =>
    lines.every((line) => widthIn(env.measure)(line) <= inside * MM);
  const insides = content.labels.filter(isInside);
  const outsides = content.labels.filter((label) => !isInside(label));
  const text = beside(outsides, size, place, env);
  const labels = text.width <= room ? text : under(outsides, size, room, env);
  const bar = scaleBar(content.scaleBar, labels.height + BELOW, env);
  const width = Math.max(labels.width, bar.width);
  if (width > room) return undefined;
  return {
    width,
    height: bar.height,
    items: [
      ...shapes,
      ...insides.flatMap((label) => centred(label, place(label.at), env)),
      ...labels.items,
      ...bar.items,
    ],
  };
}

function command(step: DrawnStep, place: (at: readonly [number, number]) => readonly [number, number]): PathCommand {
  switch (step.kind) {
    case "move":
      return ["M", ...place(step.to)];
    case "line":
      return ["L", ...place(step.to)];
    case "curve":
      return ["C", ...place(step.first), ...place(step.second), ...place(step.to)];
    case "close":
      return ["Z"];
  }
}

function boundsOf({ shapes, scaleBar }: TrueSize) {
  const points = shapes.flatMap(({ steps }) =>
    steps.flatMap((step) =>
      step.kind === "close" ? [] : step.kind === "curve" ? [step.first, step.second, step.to] : [step.to],
    ),
  );
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  const left = Math.min(...xs);
  return { left, right: Math.max(...xs, left + scaleBar.length), top: Math.min(...ys), bottom: Math.max(...ys) };
}

type Size = { readonly width: number; readonly height: number };
type Set = Size & { readonly items: readonly DrawingItem[] };

/** Sizes in a column right of the lines, each as near as it may be to what it names, with a thin line to it. */
function beside(
  labels: readonly DrawnLabel[],
  size: Size,
  place: (at: readonly [number, number]) => readonly [number, number],
  env: Env,
): Set {
  if (labels.length === 0) return { ...size, items: [] };
  const set = labels
    .map((label) => ({ ...label, end: place(label.at), tall: LINE + (label.lines.length - 1) * LEAD }))
    .toSorted((a, b) => a.end[1] - b.end[1]);
  const height = Math.max(
    size.height,
    set.reduce((sum, { tall }) => sum + tall + BETWEEN, -BETWEEN),
  );
  const tops = spread(
    set.map(({ end, tall }) => ({ wanted: end[1] - LINE / 2, tall })),
    height,
  );
  const x = size.width + BESIDE;
  const wide = Math.max(...labels.flatMap(({ lines }) => lines.map(widthIn(env.measure))));
  const items = set.flatMap(({ lines, end, color }, i): DrawingItem[] => [
    ...pointer([x - 2, tops[i]! + LINE / 2], end, env),
    ...lines.map((line, n) => words(line, x, tops[i]! + BASELINE + n * LEAD, env, color)),
  ]);
  return { width: x + wide, height, items };
}

/**
 * Keeps boxes in order, apart and between 0 and `height`, each as near to where it wants to be as all of them together may:
 * neighbours that would touch form a pile about the mean of their wishes.
 */
function spread(
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
  return between(tops, boxes, height);
}

/** The same, pushed in from both ends. */
function between(
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

/** A thin line from a size to the place it names, and a dot there. */
function pointer(
  [fromX, fromY]: readonly [number, number],
  [x, y]: readonly [number, number],
  { colors }: Env,
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

/** Where there is no room beside: the same sizes under the lines, as many on a line as fit. */
function under(labels: readonly DrawnLabel[], size: Size, room: number, env: Env): Set {
  const width = widthIn(env.measure);
  const rows: string[] = [];
  for (const text of labels.map(({ lines }) => lines.join(" "))) {
    const longer = rows.length === 0 ? text : `${rows.at(-1)} · ${text}`;
    if (rows.length > 0 && width(longer) <= room) rows[rows.length - 1] = longer;
    else rows.push(text);
  }
  return {
    width: Math.max(size.width, ...rows.map(width)),
    height: size.height + rows.length * LEAD,
    items: rows.map((row, i) => words(row, 0, size.height + BASELINE + i * LEAD, env)),
  };
}

/** Lines of text about the place itself. */
const centred = ({ lines, color }: DrawnLabel, [x, y]: readonly [number, number], env: Env): readonly DrawingItem[] =>
  lines.map((line, n) => {
    const top = y - (LINE + (lines.length - 1) * LEAD) / 2;
    return words(line, x - widthIn(env.measure)(line) / 2, top + BASELINE + n * LEAD, env, color);
  });

/** A bar of stated length with its parts marked, and its length in words. */
function scaleBar({ length, parts, label }: TrueSize["scaleBar"], top: number, env: Env): Set {
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
    width: x + widthIn(env.measure)(label),
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
      words(label, x, y, env),
    ],
  };
}

const words = (text: string, x: number, y: number, { measure, colors }: Env, color = colors.ink) =>
  chartText(text, x, y, "left", { role: "label", color }, measure);
