import type { Facts } from "../../sheet/content.ts";
import type { FlowBox, Frame } from "../flow-box.ts";
import type { Tag } from "../page.ts";
import { textAt, textBox } from "../set-text.ts";
import type { PartContext } from "../setting.ts";
import { space, type Type } from "../type-sizes.ts";
import type { Phrase } from "../wrap.ts";
import { pairTag } from "./pair-tag.ts";

const gutter = 12;
const labelShare = { body: 0.4, compact: 0.5 };

/** Label and value pairs: labels quiet in one column, values beside them on the same baseline, notes below. */
export function facts(part: Facts, ctx: PartContext): readonly FlowBox[] {
  const widest = Math.max(0, ...part.rows.map((row) => ctx.measure.width(row.label, "regular", ctx.types.table.size)));
  const labelWidth = Math.min(widest, ctx.width * (part.compact ? labelShare.compact : labelShare.body));
  const x = labelWidth + gutter;
  const type = part.compact ? ctx.types.table : ctx.types.body;
  return part.rows.map((row, i) => {
    const tag = pairTag(ctx.id, i, "body");
    const regular = (text: string): readonly Phrase[] => [{ text, weight: "regular" }];
    // The label's smaller type hangs on the value's baseline.
    const hang = (ctx.measure.capHeight * (type.size - ctx.types.table.size)) / 2;
    const labelType = { ...ctx.types.table, lead: type.lead };
    const label = textBox(
      regular(row.label),
      { x: 0, y: hang, width: labelWidth },
      labelType,
      { color: ctx.colors.quiet, tag: pairTag(ctx.id, i, "label") },
      ctx,
    );
    const box = { x, y: 0, width: ctx.width - x };
    const value = textBox(regular(row.value), box, type, { color: ctx.colors.ink, tag }, ctx);
    const note = factNote(row, value, box, type, ctx, tag);
    return {
      height: Math.max(label.height, value.height + note.below),
      items: [...label.items, ...value.items, ...note.items],
      gap: i === 0 ? space.part : 1.5,
      tie: part.rows.length > 1 && (i === 0 || i === part.rows.length - 2),
      divisible: true,
    };
  });
}

/** A note stands behind a short value where there is room, else under it. */
function factNote(
  row: Facts["rows"][number],
  value: Frame,
  box: { readonly x: number; readonly width: number },
  type: Type,
  ctx: PartContext,
  tag: Tag,
): { readonly items: Frame["items"]; readonly below: number } {
  const ink = { color: ctx.colors.quiet, tag };
  const text = row.note ?? "";
  const used = ctx.measure.width(row.value, "regular", type.size) + 6;
  const { size } = ctx.types.caption;
  const oneLine = value.height <= type.lead && used + ctx.measure.width(text, "regular", size) <= box.width;
  if (oneLine && text !== "") {
    // On the value's baseline, whose lead it borrows.
    const hang = (ctx.measure.capHeight * (type.size - size)) / 2;
    return { items: [textAt(text, box.x + used, hang, { ...ctx.types.caption, lead: type.lead }, ink, ctx)], below: 0 };
  }
  const below = textBox([{ text, weight: "regular" }], { ...box, y: value.height }, ctx.types.caption, ink, ctx);
  return { items: below.items, below: below.height };
}
