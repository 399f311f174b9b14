import type { Hero } from "../../sheet/content.ts";
import { type FlowBox, type Frame, shift } from "../flow-box.ts";
import type { PlacedImage, PlacedItem } from "../page.ts";
import { captionBelow, textBox } from "../set-text.ts";
import type { PartContext } from "../setting.ts";
import { grid, space } from "../type-sizes.ts";
import { pairTag } from "./pair-tag.ts";
import { titleFrame } from "./title.ts";

/** Heights of the photograph [pt]. */
const PHOTO = { least: 106, most: 150 } as const;
/** Facts of more lines take two thirds of the width. */
const MOST_LINES = 6;
/** A longer title stands over photograph and facts. */
const MOST_TITLE_LINES = 2;
const LABEL = { least: 48, gap: 8 } as const;
const ABOVE_FACTS = 4;

/** A photograph beside title and facts: half of the width, or a third where the facts are long or it stands upright. */
export function hero(part: Hero, ctx: PartContext): readonly FlowBox[] {
  const { photo, column, words, above, caption } = heroFrames(part, ctx);
  const free = Math.min(PHOTO.most, Math.max(PHOTO.least, words.height - caption.height));
  const height = Math.min(PHOTO.most, free + (ctx.extra?.picture ?? 0));
  const picture = croppedPicture(part.picture, { width: photo, height }, ctx);
  const beside = [picture, ...shift(caption.items, 0, height), ...shift(words.items, ctx.width - column, 0)];
  return [
    {
      height: above.height + Math.max(height + caption.height, words.height),
      items: [...above.items, ...shift(beside, 0, above.height)],
      gap: space.part,
      tie: false,
    },
  ];
}

/** How much higher than beside its facts the photograph may stand [pt]. */
export function heroGrowth(part: Hero, ctx: PartContext): number {
  const { words, caption } = heroFrames(part, ctx);
  return PHOTO.most - Math.min(PHOTO.most, Math.max(PHOTO.least, words.height - caption.height));
}

function heroFrames(part: Hero, ctx: PartContext) {
  const size = pictureSize(part.picture.image, ctx);
  const half = columnsWidth(3, ctx);
  const lines = factLines(part.facts, half, ctx);
  const narrow = size.height > size.width || lines > MOST_LINES;
  const photo = narrow ? columnsWidth(2, ctx) : half;
  const column = ctx.width - photo - grid.gutter;
  const inner = { ...ctx, width: column };
  const own = titleFrame(part.title, inner);
  const long = own.items.filter(({ tag }) => tag.kind === "heading").length > MOST_TITLE_LINES;
  const above = long ? titleFrame(part.title, ctx) : { height: 0, items: [] };
  const facts = factsFrame(part.facts, column, ctx);
  const top = long ? 0 : own.height + ABOVE_FACTS;
  const words: Frame = {
    height: top + facts.height,
    items: [...(long ? [] : own.items), ...shift(facts.items, 0, top)],
  };
  const group = `${ctx.id}-photo-group`;
  const caption = captionBelow(part.picture.caption, group, photo, ctx);
  return { photo, column, words, caption, above: long ? { ...above, height: above.height + ABOVE_FACTS } : above };
}

const columnsWidth = (columns: number, { width }: PartContext) =>
  (columns * (width - (grid.columns - 1) * grid.gutter)) / grid.columns + (columns - 1) * grid.gutter;

const labelWidth = (facts: Hero["facts"], ctx: PartContext) =>
  Math.max(
    LABEL.least,
    ...facts.map(({ label }) => ctx.measure.width(label, "regular", ctx.types.table.size) + LABEL.gap),
  );

/** Labels quiet in a narrow column, values beside them. */
function factsFrame(facts: Hero["facts"], width: number, ctx: PartContext): Frame {
  const x = labelWidth(facts, ctx);
  const { ink, quiet } = ctx.colors;
  const items: PlacedItem[] = [];
  let y = 0;
  facts.forEach(({ label, value }, i) => {
    const set = (text: string, left: number, color: string, part: "label" | "body") => {
      const tag = pairTag(`${ctx.id}-facts`, i, part);
      return textBox(
        [{ text, weight: "regular" }],
        { x: left, y, width: width - left },
        ctx.types.table,
        { color, tag },
        ctx,
      );
    };
    const said = set(value, x, ink, "body");
    items.push(...set(label, 0, quiet, "label").items, ...said.items);
    y += said.height + 1;
  });
  return { height: y, items };
}

const factLines = (facts: Hero["facts"], width: number, ctx: PartContext) =>
  factsFrame(facts, width, ctx).items.filter(({ kind }) => kind === "text").length - facts.length;

/** Fills its frame; what sticks out is cut off, its focus as near to the middle as it can be. */
export function croppedPicture(
  { image, alt, caption, focus = [0.5, 0.5] }: Hero["picture"],
  { width, height }: { readonly width: number; readonly height: number },
  ctx: PartContext,
): PlacedImage {
  const size = pictureSize(image, ctx);
  const scale = Math.max(width / size.width, height / size.height);
  const whole = { width: size.width * scale, height: size.height * scale };
  const grouped = caption === undefined ? {} : { group: `${ctx.id}-photo-group` };
  return {
    kind: "image",
    x: 0,
    y: 0,
    width,
    height,
    image,
    whole: { ...whole, x: offset(width, whole.width, focus[0]), y: offset(height, whole.height, focus[1]) },
    tag: { kind: "figure", id: `${ctx.id}-photo`, alt, ...grouped },
    block: ctx.block,
  };
}

/** Where a length begins that lies over a shorter frame, so that its share `focus` is nearest to the frame's middle. */
const offset = (frame: number, length: number, focus: number) =>
  Math.min(0, Math.max(frame - length, frame / 2 - focus * length));

/** Whether it may stand here: an upright picture is cropped too hard unless it was chosen. */
export const fitsHero = ({ picture, uprightAllowed }: Hero, images: PartContext["images"]): boolean => {
  const size = images.get(picture.image);
  return uprightAllowed || size === undefined || size.height <= size.width;
};

function pictureSize(image: string, ctx: PartContext) {
  const size = ctx.images.get(image);
  if (size === undefined) throw new Error(`block "${ctx.block}": no picture named ${image} was given to layout`);
  return size;
}
