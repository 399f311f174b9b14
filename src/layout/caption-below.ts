import { textBox } from "./set-text.ts";
import type { Setting } from "./setting.ts";
import type { Frame } from "./slab.ts";
import { types } from "./type-sizes.ts";

const above = 4;

/** The caption of the group `of`, to stand under its figures; nothing where there is none. */
export function captionBelow(text: string | undefined, of: string, width: number, set: Setting): Frame {
  if (text === undefined) return { height: 0, items: [] };
  const ink = { color: set.colors.quiet, tag: { kind: "caption", id: `${of}-caption`, of } } as const;
  const box = textBox([{ text, weight: "regular" }], { x: 0, y: above, width }, types.caption, ink, set);
  return { height: box.height + above, items: box.items };
}
