import type { Lead } from "../../sheet/content.ts";
import type { FlowBox } from "../flow-box.ts";
import { lineAt, lineBoxes } from "../set-text.ts";
import type { PartContext } from "../setting.ts";
import { space } from "../type-sizes.ts";
import { type Phrase, wrapBalanced } from "../wrap.ts";

/** The one sentence of a page, its ± in quiet regular; its last line has three words or more. */
export function lead(part: Lead, ctx: PartContext): readonly FlowBox[] {
  const type = ctx.types.opening;
  const phrases = part.phrases.map(({ text, quiet }): Phrase => ({ text, weight: quiet ? "regular" : type.weight }));
  const lines = wrapBalanced(phrases, type.size, ctx.width, ctx.measure);
  const ink = { color: ctx.colors.ink, tag: { kind: "paragraph", id: ctx.id } } as const;
  const items = lines.map((line) =>
    lineAt(line, 0, 0, type, ink, ctx).map((item) =>
      item.weight === "regular" ? { ...item, color: ctx.colors.quiet } : item,
    ),
  );
  return lineBoxes(items, type.lead, space.part);
}
