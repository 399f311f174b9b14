import type { FlowBox, Frame } from "./flow-box.ts";
import type { PlacedItem, PlacedText, Tag } from "./page.ts";
import type { PartContext } from "./setting.ts";
import type { Type } from "./type-sizes.ts";
import { type Phrase, type WrappedLine, wrap, wrapBalanced } from "./wrap.ts";

type Ink = { readonly color: string; readonly tag: Tag; readonly link?: string | undefined };

/** Baseline of a line whose box starts at 0: capitals stand in the middle of the lead. */
export function baselineOffset(type: Type, ctx: PartContext): number {
  return (type.lead + ctx.measure.capHeight * type.size) / 2;
}

/** Joins a text of several lines into one. */
export const joinLines = (typed: string): string =>
  /[\t\r\n]/.test(typed) ? typed.trim().replace(/[ \t\r\n]+/g, " ") : typed;

/** One text at a place; `y` is the top of its line. */
export function textAt(typed: string, x: number, y: number, type: Type, ink: Ink, ctx: PartContext): PlacedText {
  const text = joinLines(typed);
  return {
    kind: "text",
    text,
    x,
    y: y + baselineOffset(type, ctx),
    width: ctx.measure.width(text, type.weight, type.size),
    size: type.size,
    weight: type.weight,
    color: ink.color,
    tag: ink.tag,
    block: ctx.block,
    ...(ink.link === undefined ? {} : { link: ink.link }),
  };
}

/** A wrapped line's pieces at a place. */
export function lineAt(
  line: WrappedLine,
  x: number,
  y: number,
  type: Type,
  ink: Ink,
  ctx: PartContext,
): readonly PlacedText[] {
  return line.pieces.map((piece) => textAt(piece.text, x + piece.x, y, { ...type, weight: piece.weight }, ink, ctx));
}

/** Text wrapped into a box, its lines one under the other. */
export function textBox(
  phrases: readonly Phrase[],
  box: { readonly x: number; readonly y: number; readonly width: number },
  type: Type,
  ink: Ink,
  ctx: PartContext,
): Frame {
  const lines = wrap(phrases, type.size, box.width, ctx.measure);
  return {
    height: lines.length * type.lead,
    items: lines.flatMap((line, i) => lineAt(line, box.x, box.y + i * type.lead, type, ink, ctx)),
  };
}

/** A flow box for each line; the first two and the last two stay together. */
export function lineBoxes(lines: readonly (readonly PlacedItem[])[], lead: number, gap: number): readonly FlowBox[] {
  return lines.map((items, i) => ({
    height: lead,
    items,
    gap: i === 0 ? gap : 0,
    tie: i < lines.length - 1 && (i === 0 || i === lines.length - 2),
  }));
}

/** A rule across, in a colour and thickness. */
export function ruleAt(
  y: number,
  from: number,
  to: number,
  width: number,
  color: string,
  ctx: PartContext,
): PlacedItem {
  return { kind: "rule", x1: from, y1: y, x2: to, y2: y, width, color, tag: { kind: "artifact" }, block: ctx.block };
}

/** White space above a caption [pt]. */
const ABOVE_CAPTION = 4;

/** The caption of the group `of`, to stand under its figures; nothing where there is none. */
export function captionBelow(text: string | undefined, of: string, width: number, ctx: PartContext): Frame {
  if (text === undefined) return { height: 0, items: [] };
  const ink = { color: ctx.colors.quiet, tag: { kind: "caption", id: `${of}-caption`, of } } as const;
  const { size, lead } = ctx.types.caption;
  const lines = wrapBalanced([{ text, weight: "regular" }], size, width, ctx.measure);
  return {
    height: lines.length * lead + ABOVE_CAPTION,
    items: lines.flatMap((line, i) => lineAt(line, 0, ABOVE_CAPTION + i * lead, ctx.types.caption, ink, ctx)),
  };
}
