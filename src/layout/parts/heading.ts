import type { Heading } from "../../sheet/content.ts";
import type { FlowBox } from "../flow-box.ts";
import { lineAt } from "../set-text.ts";
import type { Setting } from "../setting.ts";
import { space, types } from "../type-sizes.ts";
import { wrap } from "../wrap.ts";

/** A heading: its lines and what follows stay together. */
export function heading(part: Heading, set: Setting): readonly FlowBox[] {
  const type = part.level === 1 ? types.title : part.level === 2 ? types.section : types.strong;
  const color = part.level === 2 ? set.colors.accent : set.colors.ink;
  const ink = { color, tag: { kind: "heading", level: part.level, id: set.id } } as const;
  return wrap([{ text: part.text, weight: type.weight }], type.size, set.width, set.measure).map((line, i) => ({
    height: type.lead,
    items: lineAt(line, 0, 0, type, ink, set),
    gap: i === 0 ? space.beforeHeading : 0,
    tie: true,
    heading: true,
  }));
}
