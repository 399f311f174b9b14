import type { ChartRow } from "../../sheet/content.ts";
import { type FlowBox, shift } from "../flow-box.ts";
import { captionBelow, textBox } from "../set-text.ts";
import { grownHeight, type PartContext } from "../setting.ts";
import { grid, space } from "../type-sizes.ts";

/** Least height of a chart [pt]; below it the block does not fit. */
const MIN_CHART_HEIGHT = 60;

/** Least height of a panel without titles [pt]. */
const MIN_PANEL_HEIGHT = 50;

/** Width of each chart of a row. */
const chartWidth = ({ charts: { length } }: ChartRow, width: number) => (width - (length - 1) * grid.gutter) / length;

/** Whether a row of charts is too narrow or too low to be drawn. */
export function roomShortage(
  part: ChartRow,
  { width, leastChart }: Pick<PartContext, "width" | "leastChart">,
): "narrow" | "low" | undefined {
  if (leastChart === undefined) return undefined;
  if (chartWidth(part, width) < leastChart.width) return "narrow";
  return (part.grow?.[0] ?? part.height) < minRowHeight(part, leastChart) ? "low" : undefined;
}

/** The least height of a row of charts: panels need little; else none has a second scale, or the highest of them has. */
export function minRowHeight({ charts }: ChartRow, least: NonNullable<PartContext["leastChart"]>): number {
  if (charts.every(({ chart }) => chart.kind === "flow-panel" || chart.kind === "dot-strip" || chart.kind === "spread"))
    return MIN_PANEL_HEIGHT;
  const plain = charts.every(({ chart }) => chart.kind === "line" && chart.top === undefined);
  return plain ? least.height - least.secondScale : least.height;
}

/** Charts side by side in equal widths, a title above each, one caption below: never divided. */
export function charts(part: ChartRow, ctx: PartContext): readonly FlowBox[] {
  if (roomShortage(part, ctx)) return [];
  const width = chartWidth(part, ctx.width);
  const left = (i: number) => i * (width + grid.gutter);
  const group = `${ctx.id}-charts`;
  const grouped = part.caption === undefined ? {} : { group };
  const titles = part.charts.map(({ title }, i) =>
    textBox(
      [{ text: title, weight: "semibold" }],
      { x: left(i), y: 0, width },
      part.headed ? ctx.types.section : ctx.types.strong,
      {
        color: part.headed ? ctx.colors.accent : ctx.colors.ink,
        tag: { kind: "paragraph", id: `${ctx.id}-title${i}`, ...grouped },
      },
      ctx,
    ),
  );
  const top = Math.max(0, ...titles.map((title) => title.height)) + space.afterTitle;
  const caption = captionBelow(part.caption, group, ctx.width, ctx);
  const height = Math.min(
    grownHeight(part, "plot", ctx),
    Math.max(
      ctx.leastChart ? minRowHeight(part, ctx.leastChart) : MIN_CHART_HEIGHT,
      ctx.pageHeight - top - caption.height,
    ),
  );
  const { labelRoom } = ctx;
  const shared = labelRoom
    ? { labelRoom: Math.max(0, ...part.charts.map(({ chart }) => labelRoom(chart, ctx.measure, width))) }
    : {};
  const panels = part.charts.map(({ chart, alt }, i) => {
    const drawing = ctx.draw(chart, { width, height }, shared);
    const tag = { kind: "figure", id: `${ctx.id}-${i}`, alt, ...grouped } as const;
    return { kind: "drawing", x: left(i), y: top, drawing, tag, block: ctx.block } as const;
  });
  return [
    {
      height: top + height + caption.height,
      items: [...panels.flatMap((panel, i) => [...titles[i]!.items, panel]), ...shift(caption.items, 0, top + height)],
      gap: space.part,
      tie: false,
    },
  ];
}
