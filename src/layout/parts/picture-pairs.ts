import type { PicturePairs } from "../../sheet/content.ts";
import { type FlowBox, type Frame, shift } from "../flow-box.ts";
import type { PlacedItem } from "../page.ts";
import { lineAt, textBox } from "../set-text.ts";
import type { PartContext } from "../setting.ts";
import { grid, space } from "../type-sizes.ts";
import { wrapBalanced } from "../wrap.ts";
import { croppedPicture } from "./hero.ts";

/** Height of a picture over its width. */
const SHAPE = 3 / 4;
const ABOVE_CAPTION = 4;

/** Before and after at one size, cropped alike, under the names of their stages; a half without a picture stays white. */
export function picturePairs(part: PicturePairs, ctx: PartContext): readonly FlowBox[] {
  const width = (ctx.width - grid.gutter) / 2;
  const heads = part.heads.map((text, i) => {
    const color = i === 0 ? ctx.colors.quiet : ctx.colors.accent;
    const tag = { kind: "paragraph", id: `${ctx.id}-head${i}` } as const;
    const box = { x: i * (width + grid.gutter), y: 0, width };
    return textBox([{ text, weight: "semibold" }], box, ctx.types.section, { color, tag }, ctx);
  });
  const head: FlowBox = {
    height: Math.max(...heads.map(({ height }) => height)),
    items: heads.flatMap(({ items }) => items),
    gap: space.part,
    tie: true,
  };
  return [head, ...part.pairs.map((pair, i) => pairBox(pair, i, width, ctx))];
}

function pairBox(pair: PicturePairs["pairs"][number], index: number, width: number, ctx: PartContext): FlowBox {
  const id = `${ctx.id}-${index}`;
  const group = `${id}-group`;
  const caption = pairCaption(pair, group, ctx);
  const height = Math.min(width * SHAPE, ctx.pageHeight - caption.height - ctx.types.section.lead - space.part);
  const halves = [pair.before, pair.after].flatMap((picture, side): readonly PlacedItem[] => {
    const x = side * (width + grid.gutter);
    if (!picture) return emptyHalf({ x, y: height / 2, width }, `${id}-none`, ctx);
    const { caption: _, ...own } = picture;
    const placed = croppedPicture(own, { width, height }, ctx);
    const tag = { kind: "figure", id: `${id}-${side}`, alt: picture.alt, group } as const;
    return shift([{ ...placed, tag }], x, 0);
  });
  const items = [...halves, ...shift(caption.items, 0, height)];
  return { height: height + caption.height, items, gap: index === 0 ? space.afterHeading : space.rowUsual, tie: false };
}

/** Number and part semibold, then what differs. */
function pairCaption({ lead, text }: PicturePairs["pairs"][number], of: string, ctx: PartContext): Frame {
  const { caption } = ctx.types;
  const phrases = [
    { text: lead, weight: "semibold" },
    { text, weight: caption.weight },
  ] as const;
  const ink = { color: ctx.colors.quiet, tag: { kind: "caption", id: `${of}-caption`, of } } as const;
  const lines = wrapBalanced(phrases, caption.size, ctx.width, ctx.measure);
  return {
    height: ABOVE_CAPTION + lines.length * caption.lead,
    items: lines.flatMap((line, i) => lineAt(line, 0, ABOVE_CAPTION + i * caption.lead, caption, ink, ctx)),
  };
}

function emptyHalf(
  { x, y, width }: { readonly x: number; readonly y: number; readonly width: number },
  id: string,
  ctx: PartContext,
): readonly PlacedItem[] {
  const { caption } = ctx.types;
  const words = "no picture";
  const left = x + (width - ctx.measure.width(words, caption.weight, caption.size)) / 2;
  const ink = { color: ctx.colors.quiet, tag: { kind: "paragraph", id } } as const;
  return textBox([{ text: words, weight: caption.weight }], { x: left, y, width }, caption, ink, ctx).items;
}
