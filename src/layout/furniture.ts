import type { Sheet } from "../sheet/content.ts";
import type { Measure } from "../text/measure.ts";
import type { PlacedItem } from "./page.ts";
import { joinLines, ruleAt, textAt } from "./set-text.ts";
import type { PartContext } from "./setting.ts";
import { grid, type Type, typeLook } from "./type-sizes.ts";
import { wrap } from "./wrap.ts";

/** Height that the banner, the running head and the foot take from the live area, with the white between them and the blocks. */
export const reserved = { banner: 26, head: 34, foot: 20 } as const;
/** The foot's rule and the top of its text, from the end of the live area. */
const foot = { rule: 16, text: 11 } as const;

type FurniturePlace = {
  readonly sheet: Sheet;
  readonly measure: Measure;
  readonly width: number;
  readonly height: number;
};

/** Banner and foot of a page, from the top left corner of the live area. */
export function furniture(page: number, pages: number, place: FurniturePlace): readonly PlacedItem[] {
  const { sheet, measure, width, height } = place;
  const { colors } = sheet.theme;
  const look = typeLook(sheet.theme.paper);
  const { foot: type, section } = look.types;
  const ctx = { ...noContext, ...look, measure, colors, width };
  const quiet = { color: colors.quiet, tag: { kind: "artifact" } } as const;
  const items: PlacedItem[] = [];
  const { left, middle, banner, head } = sheet.furniture;

  if (banner !== undefined) {
    items.push({ kind: "box", x: 0, y: 0, width, height: 18, fill: colors.grid, tag: quiet.tag, block: ctx.block });
    const text = truncateLine(banner, width - 12, section, measure);
    const x = (width - measure.width(text, section.weight, section.size)) / 2;
    items.push(textAt(text, x, 2, section, { color: colors.ink, tag: quiet.tag }, ctx));
  }
  if (head !== undefined && page > 1) items.push(...runningHead(head, banner === undefined ? 0 : reserved.banner, ctx));
  const y = height - foot.text;
  items.push(ruleAt(height - foot.rule, 0, width, 0.5, colors.rule, ctx));
  const end = page === pages;
  const count = look.phone
    ? `${page} of ${pages}${end ? ", end" : ""}`
    : `Page ${page} of ${pages}${end ? " · end of sheet" : ""}`;
  const countWidth = measure.width(count, "regular", type.size);
  // On a narrow page it follows the number; else both halves begin alike.
  const half = look.phone
    ? Math.min(width / 2, measure.width(left, "regular", type.size) + grid.gutter)
    : (width + grid.gutter) / 2;
  const leftRoom = middle === undefined ? width - countWidth - 12 : half - 12;
  items.push(textAt(truncateLine(left, leftRoom, type, measure), 0, y, type, quiet, ctx));
  if (middle !== undefined) {
    const text = truncateLine(middle, width - countWidth - 12 - half, type, measure);
    if (text !== "") items.push(textAt(text, half, y, type, quiet, ctx));
  }
  items.push(textAt(count, width - countWidth, y, type, quiet, ctx));
  return items;
}

/** The head's name and stamp under a bar of the shop's colour, whose sheet it is right of them, and that it is a draft. */
function runningHead(
  head: NonNullable<Sheet["furniture"]["head"]>,
  top: number,
  ctx: PartContext,
): readonly PlacedItem[] {
  const { measure, width, types, colors } = ctx;
  const said = (color: string) => ({ color, tag: { kind: "artifact" } }) as const;
  const items: PlacedItem[] = [];
  let right = width;
  const add = (text: string, y: number, type: Type, color: string) => {
    right -= measure.width(text, type.weight, type.size);
    items.push(textAt(text, right, top + y, type, said(color), ctx));
    right -= grid.gutter;
  };
  if (head.draft) add("Draft", HEAD_NAME - 3, types.draft, colors.ink);
  const aside = truncateLine(head.aside ?? "", width / 2 - (width - right), types.caption, measure);
  if (aside !== "") add(aside, HEAD_NAME + 2, types.caption, colors.quiet);
  const name = truncateLine(head.name, right, types.section, measure);
  if (name !== "") items.push(textAt(name, 0, top + HEAD_NAME, types.section, said(colors.ink), ctx));
  const bar = { kind: "box", x: 0, y: top, width, height: HEAD_BAR, fill: colors.accent, block: ctx.block } as const;
  return [{ ...bar, tag: { kind: "artifact" } }, ...items];
}

/** Height of the running head's bar, and from its top to the name [pt]. */
const HEAD_BAR = 4;
const HEAD_NAME = 9;

/** Truncates a text to one line, with an ellipsis. */
function truncateLine(typed: string, width: number, type: Type, measure: Measure): string {
  const text = joinLines(typed);
  if (measure.width(text, type.weight, type.size) <= width) return text;
  const room = width - measure.width("…", type.weight, type.size);
  const line = room > 0 ? wrap([{ text, weight: type.weight }], type.size, room, measure)[0] : undefined;
  return line ? `${line.pieces.map((piece) => piece.text).join(" ")}…` : "";
}

const noContext = {
  block: "furniture",
  id: "furniture",
  pageHeight: 0,
  images: new Map(),
  draw: () => {
    throw new Error("furniture draws no charts");
  },
  drawTrueSize: () => undefined,
};
