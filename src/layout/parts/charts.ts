import type { ChartRow, Picture } from "../../sheet/content.ts";
import { textBox } from "../set-text.ts";
import type { Setting } from "../setting.ts";
import type { Frame, Slab } from "../slab.ts";
import { grid, space, types } from "../type-sizes.ts";

/** A figure is not made smaller than this to have room for its words: then the block says that it does not fit [pt]. */
const LEAST = 60;

/** Charts side by side in equal widths, a title above each, one caption below: never divided. */
export function charts(part: ChartRow, set: Setting): readonly Slab[] {
  const width = (set.width - (part.charts.length - 1) * grid.gutter) / part.charts.length;
  const left = (i: number) => i * (width + grid.gutter);
  const titles = part.charts.map(({ title }, i) =>
    textBox(
      [{ text: title, weight: "semibold" }],
      { x: left(i), y: 0, width },
      types.strong,
      { color: set.colors.ink, tag: { kind: "paragraph", id: `${set.id}-title${i}` } },
      set,
    ),
  );
  const top = Math.max(0, ...titles.map((title) => title.height)) + space.afterTitle;
  const caption = captionBelow(part.caption, `${set.id}-${part.charts.length - 1}`, set);
  const height = Math.min(part.height, Math.max(LEAST, set.pageHeight - top - caption.height));
  const { labelRoom } = set;
  const shared = labelRoom
    ? { labelRoom: Math.max(0, ...part.charts.map(({ chart }) => labelRoom(chart, set.measure, width))) }
    : {};
  const panels = part.charts.map(({ chart, alt }, i) => {
    const drawing = set.draw(chart, { width, height }, shared);
    const tag = { kind: "figure", id: `${set.id}-${i}`, alt } as const;
    return { kind: "drawing", x: left(i), y: top, drawing, tag, block: set.block } as const;
  });
  return [
    {
      height: top + height + caption.height,
      items: [...panels.flatMap((panel, i) => [...titles[i]!.items, panel]), ...moved(caption, top + height)],
      gap: space.part,
      tie: false,
    },
  ];
}

/** A picture as wide as it may be, with its caption. */
export function picture(part: Picture, set: Setting): readonly Slab[] {
  const size = set.images.get(part.image);
  if (size === undefined) throw new Error(`block "${set.block}": no picture named ${part.image} was given to layout`);
  const caption = captionBelow(part.caption, set.id, set);
  const limit = Math.min(part.maxHeight, Math.max(LEAST, set.pageHeight - caption.height));
  const scale = Math.min(set.width / size.width, limit / size.height);
  const [width, height] = [size.width * scale, size.height * scale];
  const tag = { kind: "figure", id: set.id, alt: part.alt } as const;
  return [
    {
      height: height + caption.height,
      items: [
        { kind: "image", x: 0, y: 0, width, height, image: part.image, tag, block: set.block },
        ...moved(caption, height),
      ],
      gap: space.part,
      tie: false,
    },
  ];
}

const above = 4;
function captionBelow(text: string | undefined, of: string, set: Setting): Frame {
  if (text === undefined) return { height: 0, items: [] };
  const ink = { color: set.colors.quiet, tag: { kind: "caption", id: `${of}-caption`, of } } as const;
  const box = textBox([{ text, weight: "regular" }], { x: 0, y: above, width: set.width }, types.caption, ink, set);
  return { height: box.height + above, items: box.items };
}
const moved = (frame: Frame, dy: number) =>
  frame.items.map((item) => (item.kind === "text" ? { ...item, y: item.y + dy } : item));
