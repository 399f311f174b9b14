import type { Facts } from "../../sheet/content.ts";
import { textBox } from "../set-text.ts";
import type { Setting } from "../setting.ts";
import type { Slab } from "../slab.ts";
import { space, types } from "../type-sizes.ts";
import type { Phrase } from "../wrap.ts";

const gutter = 12;
const labelShare = 0.4;

/** Label and value pairs: labels quiet in one column, values beside them on the same baseline, notes below. */
export function facts(part: Facts, set: Setting): readonly Slab[] {
  const widest = Math.max(0, ...part.rows.map((row) => set.measure.width(row.label, "regular", types.table.size)));
  const labelWidth = Math.min(widest, set.width * labelShare);
  const x = labelWidth + gutter;
  return part.rows.map((row, i) => {
    const tag = { kind: "paragraph", id: `${set.id}-${i}` } as const;
    const regular = (text: string): readonly Phrase[] => [{ text, weight: "regular" }];
    // The label's smaller type hangs on the value's baseline.
    const hang = (set.measure.capHeight * (types.body.size - types.table.size)) / 2;
    const labelType = { ...types.table, lead: types.body.lead };
    const label = textBox(
      regular(row.label),
      { x: 0, y: hang, width: labelWidth },
      labelType,
      { color: set.colors.quiet, tag },
      set,
    );
    const box = { x, y: 0, width: set.width - x };
    const value = textBox(regular(row.value), box, types.body, { color: set.colors.ink, tag }, set);
    const below = { ...box, y: value.height };
    const note = textBox(regular(row.note ?? ""), below, types.caption, { color: set.colors.quiet, tag }, set);
    return {
      height: Math.max(label.height, value.height + note.height),
      items: [...label.items, ...value.items, ...note.items],
      gap: i === 0 ? space.part : 1.5,
      tie: part.rows.length > 1 && (i === 0 || i === part.rows.length - 2),
    };
  });
}
