import type { ChartRow } from "../../sheet/content.ts";
import { type FlowBox, shift } from "../flow-box.ts";
import { captionBelow, textBox } from "../set-text.ts";
import type { Setting } from "../setting.ts";
import { grid, space, types } from "../type-sizes.ts";

/** A figure is not made smaller than this to have room for its words: then the block says that it does not fit [pt]. */
const LEAST = 60;

/** Width of each chart of a row. */
const widthOfEach = ({ charts: { length } }: ChartRow, width: number) => (width - (length - 1) * grid.gutter) / length;

/** Whether a row of charts was given less room than a chart can be drawn in, and which way. */
export function lacksRoom(
  part: ChartRow,
  { width, leastChart }: Pick<Setting, "width" | "leastChart">,
): "narrow" | "low" | undefined {
  if (leastChart === undefined) return undefined;
  if (widthOfEach(part, width) < leastChart.width) return "narrow";
  return part.height < leastHeight(part, leastChart) ? "low" : undefined;
}

/** The least height of a row of charts: none has a second scale, or the highest of them has. */
export function leastHeight({ charts }: ChartRow, least: NonNullable<Setting["leastChart"]>): number {
  const plain = charts.every(({ chart }) => chart.kind === "line" && chart.top === undefined);
  return plain ? least.height - least.secondScale : least.height;
}

/** Charts side by side in equal widths, a title above each, one caption below: never divided. */
export function charts(part: ChartRow, set: Setting): readonly FlowBox[] {
  if (lacksRoom(part, set)) return [];
  const width = widthOfEach(part, set.width);
  const left = (i: number) => i * (width + grid.gutter);
  const group = `${set.id}-charts`;
  const grouped = part.caption === undefined ? {} : { group };
  const titles = part.charts.map(({ title }, i) =>
    textBox(
      [{ text: title, weight: "semibold" }],
      { x: left(i), y: 0, width },
      types.strong,
      { color: set.colors.ink, tag: { kind: "paragraph", id: `${set.id}-title${i}`, ...grouped } },
      set,
    ),
  );
  const top = Math.max(0, ...titles.map((title) => title.height)) + space.afterTitle;
  const caption = captionBelow(part.caption, group, set.width, set);
  const height = Math.min(
    part.height,
    Math.max(set.leastChart ? leastHeight(part, set.leastChart) : LEAST, set.pageHeight - top - caption.height),
  );
  const { labelRoom } = set;
  const shared = labelRoom
    ? { labelRoom: Math.max(0, ...part.charts.map(({ chart }) => labelRoom(chart, set.measure, width))) }
    : {};
  const panels = part.charts.map(({ chart, alt }, i) => {
    const drawing = set.draw(chart, { width, height }, shared);
    const tag = { kind: "figure", id: `${set.id}-${i}`, alt, ...grouped } as const;
    return { kind: "drawing", x: left(i), y: top, drawing, tag, block: set.block } as const;
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
