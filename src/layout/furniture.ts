import type { Sheet } from "../sheet/content.ts";
import type { Measure } from "../text/measure.ts";
import type { PlacedItem } from "./page.ts";
import { joinLines, ruleAt, textAt } from "./set-text.ts";
import { grid, type Type, typeLook } from "./type-sizes.ts";
import { wrap } from "./wrap.ts";

/** Height that the banner and the foot, with the white above it, take from the live area. */
export const reserved = { banner: 26, foot: 20 } as const;
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
  const { left, middle, banner } = sheet.furniture;

  if (banner !== undefined) {
    items.push({ kind: "box", x: 0, y: 0, width, height: 18, fill: colors.grid, tag: quiet.tag, block: ctx.block });
    const text = truncateLine(banner, width - 12, section, measure);
    const x = (width - measure.width(text, section.weight, section.size)) / 2;
    items.push(textAt(text, x, 2, section, { color: colors.ink, tag: quiet.tag }, ctx));
  }
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
