import type { List, Paragraph } from "../../sheet/content.ts";
import type { FlowBox } from "../flow-box.ts";
import { lineAt, lineSlabs, textAt } from "../set-text.ts";
import type { Setting } from "../setting.ts";
import { grid, space, types } from "../type-sizes.ts";
import { wrap } from "../wrap.ts";

/** Longer lines tire the eye: body text ends at the fifth column of the grid. */
const longestLine = 5 * grid.column + 4 * grid.gutter;
const indent = 12;
const TYPE = {
  body: types.body,
  small: types.table,
  lead: types.lead,
  quiet: types.caption,
  caption: types.caption,
} as const;

/** Running text, its lead semibold on the same line. */
export function paragraph(part: Paragraph, set: Setting): readonly FlowBox[] {
  const small = part.style === "quiet" || part.style === "caption";
  const type = TYPE[part.style];
  const ink = { color: small ? set.colors.quiet : set.colors.ink, tag: { kind: "paragraph", id: set.id } } as const;
  const phrases = [
    { text: part.lead ?? "", weight: "semibold" },
    { text: part.text, weight: type.weight },
  ] as const;
  // Small notes are looked up, not read through: they take the whole width.
  const lines = wrap(phrases, type.size, small ? set.width : Math.min(set.width, longestLine), set.measure);
  return lineSlabs(
    lines.map((line) => lineAt(line, 0, 0, type, ink, set)),
    type.lead,
    small ? space.part - 2 : space.part,
  );
}

/** Points one under the other, each with a dash before it. */
export function list(part: List, set: Setting): readonly FlowBox[] {
  return part.items.flatMap((item, n) => {
    const tag = { kind: "list-item", list: set.id, id: `${set.id}-${n}` } as const;
    const phrases = [
      { text: item.lead ?? "", weight: "semibold" },
      { text: item.text, weight: "regular" },
    ] as const;
    const width = Math.min(set.width, longestLine) - indent;
    const body = { color: set.colors.ink, tag: { ...tag, part: "body" } } as const;
    const label = { color: set.colors.quiet, tag: { ...tag, part: "label" } } as const;
    const type = part.compact ? types.table : types.body;
    const lines = wrap(phrases, type.size, width, set.measure).map((line, i) => [
      ...(i === 0 ? [textAt("–", 0, 0, type, label, set)] : []),
      ...lineAt(line, indent, 0, type, body, set),
    ]);
    return lineSlabs(lines, type.lead, n === 0 ? space.part : 2);
  });
}
