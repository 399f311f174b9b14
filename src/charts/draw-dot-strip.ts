import type { DotStrip } from "../sheet/content.ts";
import { checkValueOnAxis } from "./axis.ts";
import type { ChartEnv, Size } from "./chart-env.ts";
import { BASELINE, chartText, LINE, textWidth } from "./chart-text.ts";
import type { Drawing, DrawingItem } from "./drawing.ts";
import { type Box, bottom, circlePath, linePath, type Point, polygonPath, right } from "./geometry.ts";
import { CAM_DASH } from "./line-rows.ts";
import { layOutPanelFrame, type PanelFrame } from "./panel-frame.ts";

/** Radius of a dot [pt], its outline included. */
const DOT = 2.7;
const OUTLINE = 1;
/** A zone of one place only reaches this far to both sides of it [pt]. */
const LONE = 6;

/** Draws dots about zero on the ground of their ±. */
export function drawDotStrip(strip: DotStrip, size: Size, env: ChartEnv): Drawing {
  for (const { x, y } of strip.dots) {
    checkValueOnAxis(strip.x, x, "a dot");
    checkValueOnAxis(strip.y, y, "a dot");
  }
  const frame = layOutPanelFrame(strip, size, env, true);
  const { toPoint } = frame;
  const { colors } = env;
  const stems = strip.stems ? strip.dots.flatMap((dot) => stem(dot, strip, toPoint)) : [];
  const dots = strip.dots.map(
    ({ x, y, hollow }): DrawingItem => ({
      kind: "path",
      role: "reading",
      d: circlePath(toPoint(x, y), DOT - OUTLINE / 2),
      fill: hollow ? colors.paper : strip.color,
      stroke: { color: strip.color, width: OUTLINE },
    }),
  );
  const look = { role: "label", color: colors.ink } as const;
  const gaps = (strip.gaps ?? []).map((x) => {
    const [px, py] = toPoint(x, 0);
    return chartText("–", px, py - 3, "center", look, env.measure);
  });
  return {
    ...size,
    items: [
      ...zoneItems(strip, frame, env),
      ...frame.grid,
      ...camItems(strip, frame, env),
      ...stems,
      ...dots,
      ...gaps,
      ...frame.labels,
    ],
  };
}

/** From zero to a dot's edge, so that a hollow one stays white; none where the dot stands on zero. */
function stem(
  { x, y }: DotStrip["dots"][number],
  { color }: DotStrip,
  toPoint: PanelFrame["toPoint"],
): readonly DrawingItem[] {
  const [px, py] = toPoint(x, y);
  const [, zero] = toPoint(x, 0);
  const length = Math.abs(zero - py) - DOT + OUTLINE / 2;
  if (length <= 0) return [];
  const end = zero + Math.sign(py - zero) * length;
  const d = linePath([
    [px, zero],
    [px, end],
  ]);
  return [{ kind: "path", role: "bar", d, stroke: { color, width: 1 } }];
}

/** The ± of each place, from place to place. */
function zoneItems({ zone }: DotStrip, { toPoint, plot }: PanelFrame, { colors }: ChartEnv): readonly DrawingItem[] {
  if (zone.length === 0) return [];
  const edge = (side: "low" | "high") => zone.map((at): Point => toPoint(at.x, at[side]));
  const widen = (points: readonly Point[]): readonly Point[] =>
    points.length > 1
      ? points
      : points.flatMap(([x, y]): Point[] => [
          [Math.max(plot.x, x - LONE), y],
          [Math.min(right(plot), x + LONE), y],
        ]);
  const d = polygonPath([...widen(edge("high")), ...widen(edge("low")).toReversed()]);
  return [{ kind: "path", role: "band", d, fill: colors.zone, stroke: { color: colors.earlier, width: 0.5 } }];
}

/** The cam's line, and its name beside it at the top or bottom: where no dot stands, else on the side with more room. */
function camItems(strip: DotStrip, frame: PanelFrame, env: ChartEnv): readonly DrawingItem[] {
  const { cam, y } = strip;
  const { plot, toPoint } = frame;
  if (!cam) return [];
  const [x] = toPoint(cam.at, y.start);
  const line: DrawingItem = {
    kind: "path",
    role: "axis",
    d: linePath([
      [x, plot.y],
      [x, bottom(plot)],
    ]),
    stroke: { color: env.colors.ink, width: 0.75, dash: CAM_DASH },
  };
  const width = textWidth(env.measure)("your cam");
  const look = { role: "label", color: env.colors.ink } as const;
  const places = [plot.y, bottom(plot) - LINE].flatMap((top) => [
    { left: x - 4 - width, top, align: "right" as const },
    { left: x + 4, top, align: "left" as const },
  ]);
  const inside = places.filter(({ left }) => left >= plot.x + width && left + width <= right(plot));
  const place = inside.find(({ left, top }) => !isCrossed({ x: left, y: top, width, height: LINE }, strip, frame));
  const { left, top, align } = place ?? inside[0] ?? places[1]!;
  const baseline = top + BASELINE + (LINE - BASELINE) / 2;
  return [line, chartText("your cam", align === "left" ? left : left + width, baseline, align, look, env.measure)];
}

/** Whether a dot, or its stem, reaches into a box. */
function isCrossed(box: Box, { dots, stems }: DotStrip, { toPoint }: PanelFrame): boolean {
  return dots.some((dot) => {
    const [x, y] = toPoint(dot.x, dot.y);
    const foot = stems ? toPoint(dot.x, 0)[1] : y;
    return (
      x + DOT > box.x &&
      x - DOT < right(box) &&
      Math.max(y, foot) + DOT > box.y &&
      Math.min(y, foot) - DOT < bottom(box)
    );
  });
}
