import type { Title } from "../../sheet/content.ts";
import type { FlowBox, Frame } from "../flow-box.ts";
import type { PlacedItem } from "../page.ts";
import { textAt, textBox } from "../set-text.ts";
import type { PartContext } from "../setting.ts";
import { space, types } from "../type-sizes.ts";

/** From the kicker to what stands at the right end of its line [pt]. */
const ASIDE_GAP = 12;
/** White space above a note under the title [pt]. */
const ABOVE_NOTE = 2;

/** The kind of document small over what it is about, dates right of it. */
export function title(part: Title, ctx: PartContext): readonly FlowBox[] {
  const frame = titleFrame(part, ctx);
  return [{ ...frame, gap: space.part, tie: false }];
}

/** The lines of a title, to stand alone or beside a picture. */
export function titleFrame({ kicker, text, aside, note }: Omit<Title, "kind">, ctx: PartContext): Frame {
  const tag = (name: string) => ({ kind: "paragraph", id: `${ctx.id}-${name}` }) as const;
  const { accent, ink, quiet } = ctx.colors;
  const items: PlacedItem[] = [];
  let y = 0;
  const add = (
    words: string,
    type: (typeof types)["kicker" | "title" | "table" | "caption"],
    color: string,
    as: PlacedItem["tag"],
  ) => {
    const box = textBox(
      [{ text: words, weight: type.weight }],
      { x: 0, y, width: ctx.width },
      type,
      { color, tag: as },
      ctx,
    );
    items.push(...box.items);
    y += box.height;
  };
  add(kicker, types.kicker, accent, tag("kind"));
  if (aside !== undefined && aside !== "") {
    const width = ctx.measure.width(aside, types.caption.weight, types.caption.size);
    const used = ctx.measure.width(kicker, types.kicker.weight, types.kicker.size);
    if (used + ASIDE_GAP + width <= ctx.width)
      items.push(textAt(aside, ctx.width - width, 0.5, types.caption, { color: quiet, tag: tag("aside") }, ctx));
    else add(aside, types.caption, quiet, tag("aside"));
  }
  add(text, types.title, ink, { kind: "heading", level: 1, id: ctx.id });
  if (note !== undefined) {
    y += ABOVE_NOTE;
    add(note, types.table, ink, tag("note"));
  }
  return { height: y, items };
}
