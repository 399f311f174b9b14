import type { Masthead } from "../../sheet/content.ts";
import type { FlowBox, Frame } from "../flow-box.ts";
import type { PlacedItem } from "../page.ts";
import { ruleAt, textAt, textBox } from "../set-text.ts";
import type { PartContext } from "../setting.ts";
import { types } from "../type-sizes.ts";

const logoBox = { width: 120, height: 42, gap: 12 };
const underRule = 7;
/** Least width of the name [pt]; with less, the contact lines go under it. */
const leastName = 110;

/** The shop: logo, name and strapline at the left, contact lines at the right, a rule below; stacked in a narrow cell. */
export function masthead(part: Masthead, ctx: PartContext): readonly FlowBox[] {
  const lineWidths = part.lines.map((line) => ctx.measure.width(line.text, types.caption.weight, types.caption.size));
  const logo = part.logo && placeLogo(part.logo, ctx);
  const widest = Math.max(0, ...lineWidths);
  const beside = { left: logo ? logo.width + logoBox.gap : 0, right: Math.min(widest, ctx.width * 0.45) };
  const roomy = ctx.width - beside.left - beside.right - (beside.right > 0 ? logoBox.gap : 0) >= leastName;
  const stacked = { left: 0, right: Math.min(widest, ctx.width) };
  const { left, right } = roomy ? beside : stacked;
  const nameWidth = roomy ? ctx.width - left - right - (right > 0 ? logoBox.gap : 0) : ctx.width;
  const start = roomy || !logo ? 0 : logo.height + 4;

  const name = shopName(part, { x: left, y: start, width: nameWidth }, ctx);
  const nameEnd = start + name.height;
  const place = { x: roomy ? ctx.width - right : 0, y: roomy ? 2 : nameEnd + 2, width: right, flushRight: roomy };
  const lines = contactLines(part.lines, place, ctx);
  const height = Math.max(nameEnd, lines.end, logo?.height ?? 0) + underRule;
  const rule = ruleAt(height, 0, ctx.width, 1, ctx.colors.accent, ctx);
  const items = [...(logo ? [logo.item] : []), ...name.items, ...lines.items, rule];
  return [{ height: height + 1, items, gap: 0, tie: false }];
}

type TextPlace = { readonly x: number; readonly y: number; readonly width: number };

/** The name over its strapline. */
function shopName(part: Masthead, place: TextPlace, ctx: PartContext): Frame {
  const tag = (name: string) => ({ kind: "paragraph", id: `${ctx.id}-${name}` }) as const;
  const { accent, quiet } = ctx.colors;
  const name = textBox(
    [{ text: part.name, weight: "semibold" }],
    place,
    types.title,
    { color: accent, tag: tag("name") },
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

/** Address, telephone and the like, one under the other, and where they end; a line that is too wide is wrapped. */
function contactLines(
  lines: Masthead["lines"],
  { x, y, width, flushRight }: TextPlace & { readonly flushRight: boolean },
  ctx: PartContext,
): { readonly items: readonly PlacedItem[]; readonly end: number } {
  const items: PlacedItem[] = [];
  let end = y;
  lines.forEach(({ text, link }, i) => {
    const ink = { color: ctx.colors.quiet, tag: { kind: "paragraph", id: `${ctx.id}-line${i}` } as const, link };
    const own = ctx.measure.width(text, types.caption.weight, types.caption.size);
    if (own <= width) {
      items.push(textAt(text, flushRight ? ctx.width - own : x, end, types.caption, ink, ctx));
      end += types.caption.lead;
    } else {
      const wrapped = textBox([{ text, weight: "regular" }], { x, y: end, width }, types.caption, ink, ctx);
      items.push(...wrapped.items);
      end += wrapped.height;
    }
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
