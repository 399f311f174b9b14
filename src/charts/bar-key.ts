import type { BarChart } from "../sheet/content.ts";
import type { ChartEnv } from "./chart-env.ts";
import { chartText, fitText, textWidth } from "./chart-text.ts";
import type { DrawingItem } from "./drawing.ts";
import { boxPath } from "./geometry.ts";

const SWATCH = 6.5;
const SWATCH_GAP = 3;
const ENTRY_GAP = 10;

/** Legend: the groups' names with a swatch each, on one row `width` wide. */
type BarKey = {
  readonly width: number;
  readonly items: (right: number, baseline: number) => readonly DrawingItem[];
};

/** Builds the legend; empty for fewer than two groups. */
export function barKey({ groups, bars }: BarChart, chartWidth: number, env: ChartEnv): BarKey {
  if (groups.length < 2) return { width: 0, items: () => [] };
  const limit = chartWidth / groups.length - SWATCH - SWATCH_GAP - ENTRY_GAP;
  const entries = groups.map((group) => ({
    color: bars.find((bar) => bar.group === group)?.color ?? env.colors.quiet,
    ...fitText(group, limit, 1, textWidth(env.measure)),
  }));
  const widths = entries.map(({ width }) => SWATCH + SWATCH_GAP + width);
  const width = widths.reduce((sum, each) => sum + each, 0) + ENTRY_GAP * (entries.length - 1);
  return {
    width,
    items: (right, baseline) => {
      let x = right - width;
      return entries.flatMap(({ color, lines }, i): DrawingItem[] => {
        const [left, top] = [x, baseline - SWATCH + 0.25];
        x += widths[i]! + ENTRY_GAP;
        return [
          {
            kind: "path",
            role: "shape",
            d: boxPath({ x: left, y: top, width: SWATCH, height: SWATCH }),
            fill: color,
          },
          chartText(
            lines[0]!,
            left + SWATCH + SWATCH_GAP,
            baseline,
            "left",
            { role: "label", color: env.colors.ink },
            env.measure,
          ),
        ];
      });
    },
  };
}
