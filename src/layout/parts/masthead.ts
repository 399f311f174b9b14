import type { Masthead } from "../../sheet/content.ts";
import type { FlowBox, Frame } from "../flow-box.ts";
import type { PlacedItem } from "../page.ts";
import { textAt, textBox } from "../set-text.ts";
import type { PartContext } from "../setting.ts";
import { types } from "../type-sizes.ts";

const logoBox = { width: 120, height: 26, gap: 10 };
/** The bar of the shop's colour across the top, and what stands under it [pt]. */
const bar = { height: 4, below: 5 };
/** Least width of the name [pt]; with less, the contact lines go under it. */
const leastName = 110;

/** The shop under a bar of its colour: logo, name and strapline at the left, at most two contact lines at the right; stacked in a narrow cell. */
export function masthead(part: Masthead, ctx: PartContext): readonly FlowBox[] {
  const rows = contactRows(part.lines, ctx.width * 0.5, ctx);
  const logo = part.logo && placeLogo(part.logo, ctx);
  const widest = Math.max(0, ...rows.map((row) => row.width));
  const beside = { left: logo ? logo.width + logoBox.gap : 0, right: Math.min(widest, ctx.width * 0.5) };
  const roomy = ctx.width - beside.left - beside.right - (beside.right > 0 ? logoBox.gap : 0) >= leastName;
  const stacked = { left: 0, right: Math.min(widest, ctx.width) };
  const { left, right } = roomy ? beside : stacked;
  const nameWidth = roomy ? ctx.width - left - right - (right > 0 ? logoBox.gap : 0) : ctx.width;
  const top = bar.height + bar.below;
  const start = top + (roomy || !logo ? 0 : logo.height + 4);

  // A name alone stands at the middle of its logo.
  const lone = roomy && logo && part.strapline === undefined ? Math.max(0, (logo.height - types.masthead.lead) / 2) : 0;
  const name = shopName(part, { x: left, y: start + lone, width: nameWidth }, ctx);
  const nameEnd = start + lone + name.height;
  const place = { x: 0, y: roomy ? top : nameEnd + 2, width: right, flushRight: roomy };
  const lines = contactLines(rows, place, ctx);
  const strip = { kind: "box", x: 0, y: 0, width: ctx.width, height: bar.height, fill: ctx.colors.accent } as const;
  const height = Math.max(nameEnd, lines.end, logo ? top + logo.height : 0);
  const items = [
    { ...strip, tag: { kind: "artifact" } as const, block: ctx.block },
    ...(logo ? [{ ...logo.item, y: top }] : []),
    ...name.items,
    ...lines.items,
  ];
  return [{ height, items, gap: 0, tie: false }];
}

type TextPlace = { readonly x: number; readonly y: number; readonly width: number };

/** The name over its strapline. */
function shopName(part: Masthead, place: TextPlace, ctx: PartContext): Frame {
  const tag = (name: string) => ({ kind: "paragraph", id: `${ctx.id}-${name}` }) as const;
  const { ink, quiet } = ctx.colors;
  const name = textBox(
    [{ text: part.name, weight: "semibold" }],
    place,
    types.masthead,
    { color: ink, tag: tag("name") },
    ctx,
  );
  const strapline = textBox(
    [{ text: part.strapline ?? "", weight: "regular" }],
    { ...place, y: place.y + name.height + 1 },
    types.caption,
    { color: quiet, tag: tag("strapline") },
    ctx,
  );
  return { height: name.height + 1 + strapline.height, items: [...name.items, ...strapline.items] };
}

type ContactRow = { readonly lines: Masthead["lines"]; readonly width: number };
const BETWEEN = " · ";

/** The first line, and the others side by side under it where they fit in `room`; else one under the other. */
function contactRows(lines: Masthead["lines"], room: number, { measure }: PartContext): readonly ContactRow[] {
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
  ctx: PartContext,
): { readonly items: readonly PlacedItem[]; readonly end: number } {
  const items: PlacedItem[] = [];
  const { caption } = types;
  let end = y;
  rows.forEach(({ lines, width: own }, r) => {
    const ink = (link?: string, i = 0) => ({
      color: ctx.colors.quiet,
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
      const dot = { color: ctx.colors.quiet, tag: { kind: "artifact" } } as const;
      if (between !== "") items.push(textAt(between.trim(), at + space, end, caption, dot, ctx));
      at += ctx.measure.width(between, caption.weight, caption.size);
      items.push(textAt(text, at, end, caption, ink(link, i), ctx));
      at += ctx.measure.width(text, caption.weight, caption.size);
    });
    end += caption.lead;
  });
  return { items, end };
}

function placeLogo(logo: NonNullable<Masthead["logo"]>, ctx: PartContext) {
  const size = ctx.images.get(logo.image);
  if (size === undefined) throw new Error(`block "${ctx.block}": no picture named ${logo.image} was given to layout`);
  const scale = Math.min(Math.min(logoBox.width, ctx.width) / size.width, logoBox.height / size.height);
  const [width, height] = [size.width * scale, size.height * scale];
  const tag = { kind: "figure", id: `${ctx.id}-logo`, alt: logo.alt } as const;
  const item: PlacedItem = { kind: "image", x: 0, y: 0, width, height, image: logo.image, tag, block: ctx.block };
  return { width, height, item };
}
