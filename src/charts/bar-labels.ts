import type { BarChart } from "../sheet/content.ts";
import type { ChartEnv } from "./chart-env.ts";
import { BASELINE, chartText, LINE, textWidth } from "./chart-text.ts";
import type { TextItem } from "./drawing.ts";
import { type Box, boxesOverlap } from "./geometry.ts";
import { errorBarSpan } from "./line-rows.ts";

/** Direction of the labels at bars' ends, in the order tried. */
type LabelMode = "level" | "upright" | "none";
export const LABEL_MODES: readonly LabelMode[] = ["level", "upright", "none"];

/** The bars in the drawing's points, and the scale of the value axis. */
type DrawnBars = { readonly boxes: readonly Box[]; readonly toY: (value: number) => number };

/** Gap between a bar's end, or its error bar's, and the label [pt]. */
const GAP = 2;

/** Space that labels need beyond the plot when a bar reaches its edge [pt]. */
export function labelReach(chart: BarChart, mode: LabelMode, env: ChartEnv): number {
  const widths = chart.bars.flatMap(({ label }) => (label?.trim() ? [textWidth(env.measure)(label)] : []));
  if (mode === "none" || widths.length === 0) return 0;
  return GAP + (mode === "level" ? LINE : Math.max(...widths) + 1);
}

/** Label boxes, one per bar; undefined for a bar without a label. */
export function labelBoxes(
  { bars, y }: BarChart,
  mode: LabelMode,
  drawn: DrawnBars,
  env: ChartEnv,
): readonly (Box | undefined)[] {
  return bars.map(({ label, value, plusMinus = 0 }, i) => {
    if (!label?.trim() || mode === "none") return undefined;
    const width = textWidth(env.measure)(label);
    const size = mode === "level" ? { width, height: LINE } : { width: LINE, height: width };
    const { low, high } = errorBarSpan(y, value, plusMinus);
    const bar = drawn.boxes[i]!;
    const top = value < 0 ? drawn.toY(low) + GAP : drawn.toY(high) - GAP - size.height;
    return { x: bar.x + bar.width / 2 - size.width / 2, y: top, ...size };
  });
}

/** Whether no label overlaps another label or another bar. */
export function areLabelsClear(labels: readonly (Box | undefined)[], bars: readonly Box[], within: Size): boolean {
  return labels.every((label, i) => {
    if (!label) return true;
    if (label.x < 0 || label.x + label.width > within.width) return false;
    return (
      labels.every((other, j) => j <= i || !other || !boxesOverlap(label, other)) &&
      bars.every((bar, j) => j === i || !boxesOverlap(label, bar))
    );
  });
}
type Size = { readonly width: number };

export function labelTexts(
  { bars }: BarChart,
  boxes: readonly (Box | undefined)[],
  mode: LabelMode,
  env: ChartEnv,
): readonly TextItem[] {
  const look = { role: "label", color: env.colors.ink } as const;
  return boxes.flatMap((box, i): TextItem[] => {
    if (!box) return [];
    const text = bars[i]!.label!;
    if (mode === "level") return [chartText(text, box.x, box.y + BASELINE, "left", look, env.measure)];
    return [{ ...chartText(text, box.x + BASELINE, box.y + box.height, "left", look, env.measure), angle: -90 }];
  });
}
