import type { DrawingItem, PathCommand } from "../../charts/drawing.ts";
import type { Cover } from "../../sheet/content.ts";
import { type FlowBox, type Frame, shift } from "../flow-box.ts";
import type { PlacedItem } from "../page.ts";
import { textAt, textBox } from "../set-text.ts";
import { grownHeight, type PartContext } from "../setting.ts";
import { grid, types } from "../type-sizes.ts";
import { croppedPicture } from "./hero.ts";
import { placeLogo } from "./masthead.ts";
import { circle } from "./verdict-mark.ts";

/** White inside the ground, under the shop's line, between title and text [pt]. */
const INSET = 18;
const UNDER_SHOP = 10;
const UNDER_TITLE = 5;
const LOGO_GAP = 8;
const PLATE = 4;
/** Points per millimetre. */
const MM = 72 / 25.4;

/** The product on a ground of the shop's colour; shop and part above it, picture or valves in the right half. */
export function cover(part: Cover, ctx: PartContext): readonly FlowBox[] {
  const { paper, accent } = ctx.colors;
  const half = (ctx.width - grid.gutter) / 2;
  const right = { x: half + grid.gutter, width: half - INSET };
  const shop = shopLine(part, ctx);
  const top = INSET + shop.height + UNDER_SHOP;
  const valves = part.picture ? undefined : valveDrawing(part, right.width, ctx);
  const beside = part.picture !== undefined || valves !== undefined;
  const words = titleWords(part, beside ? half - INSET : ctx.width - 2 * INSET, ctx);
  const least = top + Math.max(words.height, valves?.height ?? 0) + INSET;
  const height = Math.max(least, grownHeight(part, "picture", ctx));
  const ground: PlacedItem = {
    ...{ kind: "box", x: 0, y: 0, width: ctx.width, height, fill: accent },
    ...{ tag: { kind: "artifact" }, block: ctx.block },
  };
  const picture = part.picture && croppedPicture(part.picture, { ...right, height: height - top - INSET }, ctx);
  const items = [
    ground,
    ...shift(shop.items, INSET, INSET),
    ...shift(words.items, INSET, height - INSET - words.height),
    ...(picture ? shift([picture], right.x, top) : []),
    ...(valves ? shift(valves.items, right.x, height - INSET - valves.height) : []),
  ];
  return [
    {
      height,
      items: items.map((item) => (item.kind === "text" ? { ...item, color: paper } : item)),
      gap: 0,
      tie: false,
    },
  ];
}

/** How much the cover may grow beyond what its words need [pt]. */
export function coverGrowth(part: Cover, ctx: PartContext): number {
  const [box] = cover(part, { ...ctx, extra: { plot: 0, picture: 0 } });
  return Math.max(0, (part.grow?.[1] ?? 0) - (box?.height ?? 0));
}

/** Logo and name at the left, number and revision at the right. */
function shopLine(part: Cover, ctx: PartContext): Frame {
  const width = ctx.width - 2 * INSET;
  const ink = (name: string) => ({
    color: ctx.colors.paper,
    tag: { kind: "paragraph", id: `${ctx.id}-${name}` } as const,
  });
  const logo = part.logo && placeLogo(part.logo, PLATE, ctx);
  const { bandName, table } = ctx.types;
  const aside = ctx.measure.width(part.aside, table.weight, table.size);
  const x = logo ? logo.width + LOGO_GAP : 0;
  const box = { x, y: 0, width: Math.max(60, width - x - aside - LOGO_GAP) };
  const name = textBox([{ text: part.name, weight: bandName.weight }], box, bandName, ink("name"), ctx);
  const height = Math.max(logo?.height ?? 0, name.height, table.lead);
  const middle = (own: number) => (height - own) / 2;
  return {
    height,
    items: [
      ...shift(logo?.items ?? [], 0, middle(logo?.height ?? 0)),
      ...shift(name.items, 0, middle(name.height)),
      textAt(part.aside, width - aside, middle(table.lead), table, ink("aside"), ctx),
    ],
  };
}

function titleWords({ title, text }: Cover, width: number, ctx: PartContext): Frame {
  const color = ctx.colors.paper;
  const heading = { kind: "heading", level: 1, id: ctx.id } as const;
  const box = { x: 0, y: 0, width };
  const { coverTitle, cover: type } = ctx.types;
  const name = textBox([{ text: title, weight: coverTitle.weight }], box, coverTitle, { color, tag: heading }, ctx);
  const tag = { kind: "paragraph", id: `${ctx.id}-text` } as const;
  const below = { ...box, y: name.height + UNDER_TITLE };
  const said = textBox([{ text, weight: type.weight }], below, type, { color, tag }, ctx);
  return { height: below.y + said.height, items: [...name.items, ...said.items] };
}

/** Valves and throats as circles at 1 : 1, with their sizes inside and a scale bar below; nothing where they do not fit. */
function valveDrawing({ valves }: Cover, width: number, ctx: PartContext): Frame | undefined {
  if (!valves) return undefined;
  const { paper, shade } = ctx.colors;
  const widths = valves.discs.map(({ diameter }) => diameter * MM);
  const gap = (width - widths.reduce((sum, one) => sum + one, 0)) / Math.max(1, valves.discs.length);
  if (gap < grid.gutter) return undefined;
  const tallest = Math.max(...widths);
  const foot = tallest + types.caption.lead;
  const items: DrawingItem[] = [];
  let x = 1;
  valves.discs.forEach((disc, i) => {
    const r = widths[i]! / 2;
    const [cx, cy] = [x + r, tallest - r];
    const stroke = { color: paper, width: 1.25 };
    items.push({ kind: "path", role: "shape", d: circle(cx, cy, r - 0.625), fill: shade, stroke });
    if (disc.throatDiameter !== undefined) {
      const dashed = { color: paper, width: 0.75, dash: [2.5, 2] };
      items.push({ kind: "path", role: "shape", d: circle(cx, cy, (disc.throatDiameter * MM) / 2), stroke: dashed });
    }
    items.push(...discWords(disc, { cx, cy, foot }, ctx));
    x += widths[i]! + gap;
  });
  const barTop = foot + 8;
  items.push(...scaleBar(valves.scaleBar, barTop, ctx));
  const height = barTop + types.caption.lead;
  const drawing = { width, height, items };
  const tag = { kind: "figure", id: `${ctx.id}-valves`, alt: valves.alt } as const;
  return { height, items: [{ kind: "drawing", x: 0, y: 0, drawing, tag, block: ctx.block }] };
}

type Disc = NonNullable<Cover["valves"]>["discs"][number];

/** Size and throat in the middle of a valve, its name under it. */
function discWords(disc: Disc, at: { cx: number; cy: number; foot: number }, ctx: PartContext): readonly DrawingItem[] {
  const { section, caption } = types;
  const words = (text: string, y: number, type: typeof section | typeof caption): DrawingItem => ({
    ...{ kind: "text", role: "label", text, size: type.size, weight: type.weight, color: ctx.colors.paper },
    ...{ x: at.cx - ctx.measure.width(text, type.weight, type.size) / 2, y },
  });
  const up = disc.throat === undefined ? 4 : 0;
  return [
    words(disc.size, at.cy + up, section),
    ...(disc.throat === undefined ? [] : [words(disc.throat, at.cy + 11, caption)]),
    words(disc.label, at.foot, caption),
  ];
}

function scaleBar(
  { length, label }: NonNullable<Cover["valves"]>["scaleBar"],
  top: number,
  ctx: PartContext,
): readonly DrawingItem[] {
  const y = top + 5;
  const end = 1 + length * MM;
  const bar: readonly PathCommand[] = [
    ...([
      ["M", 1, y - 3],
      ["L", 1, y + 3],
      ["M", 1, y],
      ["L", end, y],
    ] as const),
    ...([
      ["M", end, y - 3],
      ["L", end, y + 3],
    ] as const),
  ];
  const { size, weight } = types.caption;
  const color = ctx.colors.paper;
  const text = `${label}; valves drawn at true size`;
  return [
    { kind: "path", role: "axis", d: bar, stroke: { color, width: 0.75 } },
    { kind: "text", role: "label", text, x: end + 6, y: y + 3, size, weight, color },
  ];
}
