import type { Axis } from "../sheet/content.ts";
import type { ChartEnv, Size } from "./chart-env.ts";
import { BASELINE, chartText, fitText, LEAD, LINE, textWidth } from "./chart-text.ts";
import type { TextItem } from "./drawing.ts";
import { type Box, bottom } from "./geometry.ts";
import { TICK_GAP } from "./shape-parts.ts";
import { formatTick } from "./tick-labels.ts";

/** What surrounds a chart's plot. */
type Surround = {
  readonly xTitle: string;
  readonly y: Axis;
  /** Width of a second scale's title or a legend, right of the y title if it fits there [pt]. */
  readonly besideWidth: number;
  /** Between the titles and the plot [pt]. */
  readonly above: number;
  /** Between the plot and the x axis' numbers, ticks included [pt]. */
  readonly below: number;
  /** Least room at the left, for half of the outermost number [pt]. */
  readonly leftLeast: number;
  readonly right: number;
};

/** The plot, the axis titles, and the right end of what goes beside the y title. */
type Panel = {
  readonly plot: Box;
  readonly titles: readonly TextItem[];
  readonly beside: { readonly right: number; readonly y: number };
};

/** Gaps below the titles and between items on the title row [pt]. */
const TITLE_GAP = 5.5;
const BESIDE_GAP = 12;
/** Least width and height of a plot [pt]. */
const LEAST = 24;

/** Lays out a chart's surround; the y title is horizontal, above its axis. */
export function layOutPanel(size: Size, { measure, colors }: ChartEnv, surround: Surround): Panel {
  const width = textWidth(measure);
  const yTitle = fitText(surround.y.title, size.width, 2, width);
  const besideFits = surround.besideWidth === 0 || yTitle.width + BESIDE_GAP + surround.besideWidth <= size.width;
  const rows = yTitle.lines.length + (besideFits ? 0 : 1);

  const yNumbers = Math.max(0, ...surround.y.ticks.map((tick) => width(formatTick(tick, surround.y.decimals))));
  const left = Math.max(yNumbers + TICK_GAP + 1, surround.leftLeast);
  const top = rows * LEAD + TITLE_GAP + surround.above;
  const numbers = surround.below + TICK_GAP + LINE;
  const plotWidth = size.width - left - surround.right;
  const xTitle = fitText(surround.xTitle, size.width, 2, width);
  const xTitleHeight = surround.xTitle === "" ? 0 : xTitle.lines.length * LEAD + 1;
  const plot = { x: left, y: top, width: plotWidth, height: size.height - top - numbers - xTitleHeight };
  if (!(plot.width >= LEAST && plot.height >= LEAST))
    throw new RangeError(`a chart of ${size.width} × ${size.height} pt has no room for its plot`);

  const look = { role: "axis", color: colors.ink } as const;
  const titles = [
    ...yTitle.lines.map((line, i) => chartText(line, 0, BASELINE + i * LEAD, "left", look, measure)),
    ...xTitle.lines.map((line, i) => {
      const half = width(line) / 2;
      const middle = Math.max(half, Math.min(plot.x + plot.width / 2, size.width - half));
      return chartText(line, middle, bottom(plot) + numbers + 1 + BASELINE + i * LEAD, "center", look, measure);
    }),
  ].filter(({ text }) => text !== "");
  const besideRight = Math.min(
    size.width,
    Math.max(
      plot.x + plot.width,
      surround.besideWidth,
      besideFits ? yTitle.width + BESIDE_GAP + surround.besideWidth : 0,
    ),
  );
  return { plot, titles, beside: { right: besideRight, y: BASELINE + (rows - 1) * LEAD } };
}
