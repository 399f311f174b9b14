import type { Heading, List, Paragraph } from "../../sheet/content.ts";
import type { FlowBox } from "../flow-box.ts";
import type { PlacedItem } from "../page.ts";
import { baselineOffset, lineAt, lineBoxes, textAt } from "../set-text.ts";
import type { PartContext } from "../setting.ts";
import { grid, space, type Type } from "../type-sizes.ts";
import { LAST_LINE, wrap, wrapBalanced } from "../wrap.ts";

/** A heading: its lines and what follows stay together. */
export function heading(part: Heading, ctx: PartContext): readonly FlowBox[] {
  const type = part.level === 1 ? ctx.types.title : part.level === 2 ? ctx.types.section : ctx.types.strong;
  const color = part.level === 2 ? ctx.colors.accent : ctx.colors.ink;
  const ink = { color, tag: { kind: "heading", level: part.level, id: ctx.id, ...captionedBy(ctx) } } as const;
  return wrap([{ text: part.text, weight: type.weight }], type.size, ctx.width, ctx.measure).map((line, i) => ({
    height: type.lead,
    items: lineAt(line, 0, 0, type, ink, ctx),
    gap: i === 0 ? space.beforeHeading : 0,
    tie: true,
    heading: true,
  }));
}

const captionedBy = ({ captions }: PartContext) => (captions === undefined ? {} : { captions });

/** Longer lines tire the eye: body text ends at the fifth column of the grid. */
const longestLine = 5 * grid.column + 4 * grid.gutter;
const indent = 12;
const TYPE = { body: "body", small: "table", lead: "lead", quiet: "caption", caption: "caption" } as const;

/** Running text, its lead semibold on the same line. */
export function paragraph(part: Paragraph, ctx: PartContext): readonly FlowBox[] {
  const small = part.style === "quiet" || part.style === "caption";
  const type = ctx.types[TYPE[part.style]];
  const tag = { kind: "paragraph", id: ctx.id, ...captionedBy(ctx) } as const;
  const ink = { color: small ? ctx.colors.quiet : ctx.colors.ink, tag };
  const phrases = [
    { text: part.lead ?? "", weight: "semibold" },
    { text: part.text, weight: type.weight },
  ] as const;
  // Small notes are looked up, not read through: they take the whole width.
  const lines = wrapBalanced(phrases, type.size, small ? ctx.width : Math.min(ctx.width, longestLine), ctx.measure);
  return lineBoxes(
    lines.map((line) => lineAt(line, 0, 0, type, ink, ctx)),
    type.lead,
    small ? space.part - 2 : space.part,
  );
}

/** A filled square at the middle of a line's capitals. */
function square(type: Type, ctx: PartContext): PlacedItem {
  const side = 5.5;
  const y = baselineOffset(type, ctx) - (ctx.measure.capHeight * type.size + side) / 2;
  const tag = { kind: "artifact" } as const;
  return { kind: "box", x: 0, y, width: side, height: side, fill: ctx.colors.accent, tag, block: ctx.block };
}

/** Points one under the other, each with a dash before it unless it begins with a lead. */
export function list(part: List, ctx: PartContext): readonly FlowBox[] {
  return part.items.flatMap((item, n) => {
    const tag = { kind: "list-item", list: ctx.id, id: `${ctx.id}-${n}` } as const;
    const phrases = [
      { text: item.lead ?? "", weight: "semibold" },
      { text: item.text, weight: "regular" },
    ] as const;
    const from = part.plain ? 0 : indent;
    const width = Math.min(ctx.width, longestLine) - from;
    const body = { color: ctx.colors.ink, tag: { ...tag, part: "body" } } as const;
    const label = { color: ctx.colors.quiet, tag: { ...tag, part: "label" } } as const;
    const type = part.compact ? ctx.types.table : ctx.types.body;
    const lines = wrapBalanced(phrases, type.size, width, ctx.measure, LAST_LINE.item).map((line, i) => [
      ...(i === 0 && part.squares ? [square(type, ctx)] : []),
      ...(i === 0 && !part.plain && !part.squares ? [textAt("–", 0, 0, type, label, ctx)] : []),
      ...lineAt(line, from, 0, type, body, ctx),
    ]);
    return lineBoxes(lines, type.lead, n === 0 ? space.part : part.plain ? space.caution : part.squares ? 0 : 2);
  });
}
