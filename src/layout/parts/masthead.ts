import type { Masthead } from "../../sheet/content.ts";
import { type FlowBox, type Frame, shift } from "../flow-box.ts";
import type { PlacedItem } from "../page.ts";
import { ruleAt, textAt, textBox } from "../set-text.ts";
import type { PartContext } from "../setting.ts";
import type { Type } from "../type-sizes.ts";

const logoBox = { width: 120, height: 26, gap: 10 };
/** The bar of the shop's colour across the top, and what stands under it [pt]. */
const bar = { height: 4, below: 5 };
/** A band of the shop's colour: its least height, white around the words, and around a logo that stands on white [pt]. */
const band = { height: 42, inset: 14, above: 6, plate: 4 };
/** From the words of a plain masthead to its rule [pt]. */
const ABOVE_RULE = 5;
/** Least width of the name [pt]; with less, the contact lines go under it. */
const leastName = 110;

type Look = {
  readonly name: string;
  readonly quiet: string;
  readonly type: Type;
  /** Name, logo and contact lines share one middle; else one top. */
  readonly middle: boolean;
  /** White around the logo [pt]. */
  readonly plate: number;
};

/** The shop under a bar of its colour, on a band of it, or over a rule: logo, name and strapline at the left, at most two contact lines at the right; stacked in a narrow cell. */
export function masthead(part: Masthead, ctx: PartContext): readonly FlowBox[] {
  return [{ ...styledMasthead(part, ctx), gap: 0, tie: false }];
}

function styledMasthead(part: Masthead, ctx: PartContext): Frame {
  const { accent, ink, quiet, paper, rule } = ctx.colors;
  const onPaper = { name: ink, quiet, type: ctx.types.masthead, middle: false, plate: 0 };
  const block = (height: number): PlacedItem => ({
    ...{ kind: "box", x: 0, y: 0, width: ctx.width, height, fill: accent },
    ...{ tag: { kind: "artifact" }, block: ctx.block },
  });
  switch (part.style ?? "rule") {
    case "band": {
      const look = { name: paper, quiet: paper, type: ctx.types.bandName, middle: true, plate: band.plate };
      const words = shopWords(part, look, { ...ctx, width: ctx.width - 2 * band.inset });
      const height = Math.max(band.height, words.height + 2 * band.above);
      return { height, items: [block(height), ...shift(words.items, band.inset, (height - words.height) / 2)] };
    }
    case "plain": {
      const words = shopWords(part, onPaper, ctx);
      const height = words.height + ABOVE_RULE;
      return { height, items: [...words.items, ruleAt(height, 0, ctx.width, 0.5, rule, ctx)] };
    }
    case "rule": {
      const words = shopWords(part, onPaper, ctx);
      const top = bar.height + bar.below;
      return { height: top + words.height, items: [block(bar.height), ...shift(words.items, 0, top)] };
    }
  }
}

/** Logo, name and strapline; the contact lines beside them, or under them. */
function shopWords(part: Masthead, look: Look, ctx: PartContext): Frame {
  const rows = contactRows(part.lines, ctx.width * 0.5, ctx);
  const logo = part.logo && placeLogo(part.logo, look.plate, ctx);
  const widest = Math.max(0, ...rows.map((row) => row.width));
  const beside = { left: logo ? logo.width + logoBox.gap : 0, right: Math.min(widest, ctx.width * 0.5) };
  const roomy = ctx.width - beside.left - beside.right - (beside.right > 0 ? logoBox.gap : 0) >= leastName;
  const stacked = { left: 0, right: Math.min(widest, ctx.width) };
  const { left, right } = roomy ? beside : stacked;
  const nameWidth = roomy ? ctx.width - left - right - (right > 0 ? logoBox.gap : 0) : ctx.width;
  const name = shopName(part, { x: left, y: 0, width: nameWidth }, look, ctx);
  const lines = contactLines(rows, { x: 0, y: 0, width: right, flushRight: roomy }, look, ctx);
  if (!roomy) {
    const below = logo ? logo.height + 4 : 0;
    const items = [...(logo?.items ?? []), ...shift(name.items, 0, below)];
    const end = below + name.height + 2;
    return { height: end + lines.height, items: [...items, ...shift(lines.items, 0, end)] };
  }
  const height = Math.max(name.height, lines.height, logo?.height ?? 0);
  const down = (own: number) => (look.middle ? (height - own) / 2 : 0);
  // A name alone stands at the middle of its logo.
  const lone = logo && part.strapline === undefined ? Math.max(0, (logo.height - look.type.lead) / 2) : 0;
  const items = [
    ...shift(logo?.items ?? [], 0, down(logo?.height ?? 0)),
    ...shift(name.items, 0, look.middle ? down(name.height) : lone),
    ...shift(lines.items, 0, down(lines.height)),
  ];
  return { height: Math.max(height, look.middle ? 0 : lone + name.height), items };
}

type TextPlace = { readonly x: number; readonly y: number; readonly width: number };

/** The name over its strapline. */
function shopName(part: Masthead, place: TextPlace, look: Look, ctx: PartContext): Frame {
  const tag = (name: string) => ({ kind: "paragraph", id: `${ctx.id}-${name}` }) as const;
  const name = textBox(
    [{ text: part.name, weight: look.type.weight }],
    place,
    look.type,
    { color: look.name, tag: tag("name") },
    ctx,
  );
  if (part.strapline === undefined) return { ...name, height: name.height + (look.middle ? 0 : 1) };
  const strapline = textBox(
    [{ text: part.strapline, weight: "regular" }],
    { ...place, y: place.y + name.height + 1 },
    ctx.types.caption,
    { color: look.quiet, tag: tag("strapline") },
    ctx,
  );
  return { height: name.height + 1 + strapline.height, items: [...name.items, ...strapline.items] };
}

type ContactRow = { readonly lines: Masthead["lines"]; readonly width: number };
const BETWEEN = " · ";

/** The first line, and the others side by side under it where they fit in `room`; else one under the other. */
function contactRows(lines: Masthead["lines"], room: number, { measure, types }: PartContext): readonly ContactRow[] {
  const rowOf = (row: Masthead["lines"]): ContactRow => ({
    lines: row,
    width: measure.width(row.map(({ text }) => text).join(BETWEEN), types.caption.weight, types.caption.size),
  });
  const others = rowOf(lines.slice(1));
  return lines.length > 2 && others.width <= room
    ? [rowOf(lines.slice(0, 1)), others]
    : lines.map((line) => rowOf([line]));
}

/** Address, telephone and the like, and where they end; a line that is too wide is wrapped. */
function contactLines(
  rows: readonly ContactRow[],
  { x, y, width, flushRight }: TextPlace & { readonly flushRight: boolean },
  look: Look,
  ctx: PartContext,
): Frame {
  const items: PlacedItem[] = [];
  const { caption } = ctx.types;
  let end = y;
  rows.forEach(({ lines, width: own }, r) => {
    const ink = (link?: string, i = 0) => ({
      color: look.quiet,
      tag: { kind: "paragraph", id: `${ctx.id}-line${r}${i > 0 ? `-${i}` : ""}` } as const,
      link,
    });
    if (own > width + 1e-6) {
      const box = { x: flushRight ? ctx.width - width : x, y: end, width };
      const wrapped = textBox(
        [{ text: lines[0]!.text, weight: caption.weight }],
        box,
        caption,
        ink(lines[0]!.link),
        ctx,
      );
      items.push(...wrapped.items);
      end += wrapped.height;
      return;
    }
    let at = flushRight ? ctx.width - own : x;
    lines.forEach(({ text, link }, i) => {
      const between = i === 0 ? "" : BETWEEN;
      const space = ctx.measure.width(" ", caption.weight, caption.size);
      const dot = { color: look.quiet, tag: { kind: "artifact" } } as const;
      if (between !== "") items.push(textAt(between.trim(), at + space, end, caption, dot, ctx));
      at += ctx.measure.width(between, caption.weight, caption.size);
      items.push(textAt(text, at, end, caption, ink(link, i), ctx));
      at += ctx.measure.width(text, caption.weight, caption.size);
    });
    end += caption.lead;
  });
  return { items, height: end };
}

/** The logo in its box, on a plate of white where it stands on a colour. */
export function placeLogo(logo: NonNullable<Masthead["logo"]>, plate: number, ctx: PartContext) {
  const size = ctx.images.get(logo.image);
  if (size === undefined) throw new Error(`block "${ctx.block}": no picture named ${logo.image} was given to layout`);
  const scale = Math.min(Math.min(logoBox.width, ctx.width) / size.width, logoBox.height / size.height);
  const [width, height] = [size.width * scale, size.height * scale];
  const tag = { kind: "figure", id: `${ctx.id}-logo`, alt: logo.alt } as const;
  const item: PlacedItem = {
    ...{ kind: "image", x: plate, y: plate, width, height },
    ...{ image: logo.image, tag, block: ctx.block },
  };
  const whole = { width: width + 2 * plate, height: height + 2 * plate };
  const ground: PlacedItem = {
    ...{ kind: "box", x: 0, y: 0, ...whole, fill: ctx.colors.paper },
    ...{ tag: { kind: "artifact" }, block: ctx.block },
  };
  return { ...whole, items: plate > 0 ? [ground, item] : [item] };
}
