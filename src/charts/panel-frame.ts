import type { Axis, FlowPanel } from "../sheet/content.ts";
import { axisShare, checkAxis } from "./axis.ts";
import type { ChartEnv, Size } from "./chart-env.ts";
import { chartText, LINE, textWidth } from "./chart-text.ts";
import type { DrawingItem, TextItem } from "./drawing.ts";
import { type Box, bottom, linePath } from "./geometry.ts";
import type { ToPoint } from "./obstacles.ts";
import { BELOW, LABEL_RISE, RIBBON } from "./panel-room.ts";
import { formatTick } from "./tick-labels.ts";

type Axes = { readonly x: Axis; readonly y: Axis; readonly ribbon?: FlowPanel["ribbon"] };

/** A panel without titles: where its plot lies, its labels, its lines across. */
export type PanelFrame = {
  readonly plot: Box;
  readonly toPoint: ToPoint;
  readonly labels: readonly TextItem[];
  readonly grid: readonly DrawingItem[];
};

/** Gap between labels below the plot [pt]. */
const APART = 6;

/**
 * Lays out a panel: the plot takes all of the width, labels of y stand on the grid lines inside it, those of x below. Signed labels
 * are short, so that the first stem clears them: their unit stands in the title of the chart.
 */
export function layOutPanelFrame({ x, y, ribbon }: Axes, size: Size, env: ChartEnv, signed = false): PanelFrame {
  checkAxis(x);
  checkAxis(y);
  const below = BELOW + (ribbon ? RIBBON.height + RIBBON.gap : 0);
  const plot = { x: 0, y: 0, width: size.width, height: size.height - below };
  if (!(plot.width > 0 && plot.height > 0))
    throw new RangeError(`a panel of ${size.width} × ${size.height} pt has no room for its plot`);
  const toPoint: ToPoint = (px, py) => [
    plot.x + axisShare(x, px) * plot.width,
    bottom(plot) - axisShare(y, py) * plot.height,
  ];
  const look = { role: "axis", color: env.colors.quiet } as const;
  const text = (label: string, at: number, baseline: number, align: "left" | "center") =>
    chartText(label, at, baseline, align, look, env.measure);
  const top = y.ticks.at(-1);
  const yLabels = y.ticks
    .filter((tick) => tick !== 0)
    .map((tick) => {
      const number = `${signed && tick > 0 ? "+" : ""}${formatTick(tick, y.decimals)}`;
      const label = tick === top && !signed ? `${number}\u00a0${y.title}` : number;
      return text(label, 0, toPoint(x.start, tick)[1] - LABEL_RISE, "left");
    });
  const foot = bottom(plot) + below - (LINE - 7.25);
  const name = text(x.title, 0, foot, "left");
  const numbers = xNumbers(x, plot.width, textWidth(env.measure), textWidth(env.measure)(x.title)).map(
    ({ at, label }) => text(label, toPoint(at, y.start)[0], foot, "center"),
  );
  const grid = y.ticks.map((tick): DrawingItem => {
    const line = linePath([toPoint(x.start, tick), toPoint(x.end, tick)]);
    const stroke = tick === 0 ? { color: env.colors.ink, width: 0.75 } : { color: env.colors.grid, width: 0.5 };
    return { kind: "path", role: tick === 0 ? "axis" : "grid", d: line, stroke };
  });
  return { plot, toPoint, labels: [...yLabels, name, ...numbers], grid };
}

/** Numbers below the plot: those that touch neither the axis' name at the left, nor the right edge, nor one another. */
function xNumbers(x: Axis, width: number, measure: (text: string) => number, name: number) {
  const all = x.ticks
    .map((at) => ({ at, label: formatTick(at, x.decimals) }))
    .map((one) => ({ ...one, middle: axisShare(x, one.at) * width, half: measure(one.label) / 2 }))
    .filter(({ middle, half }) => middle - half >= name + APART && middle + half <= width);
  for (let step = 1; step <= all.length; step++) {
    const kept = all.filter((_, i) => (all.length - 1 - i) % step === 0);
    if (kept.every((one, i) => i === 0 || one.middle - one.half - kept[i - 1]!.middle - kept[i - 1]!.half >= APART))
      return kept;
  }
  return [];
}
