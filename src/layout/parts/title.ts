import type { Title } from "../../sheet/content.ts";
import type { FlowBox, Frame } from "../flow-box.ts";
import type { PlacedItem } from "../page.ts";
import { textAt, textBox } from "../set-text.ts";
import type { PartContext } from "../setting.ts";
import { space, type TypeSizes } from "../type-sizes.ts";

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
export function titleFrame(
  { kicker = "", text, aside, under, note, draft }: Omit<Title, "kind">,
  ctx: PartContext,
): Frame {
  const tag = (name: string) => ({ kind: "paragraph", id: `${ctx.id}-${name}` }) as const;
  const { accent, ink, quiet } = ctx.colors;
  const items: PlacedItem[] = [];
  let y = 0;
  const add = (
    words: string,
    type: TypeSizes["kicker" | "title" | "table" | "caption"],
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
  const drafted = draft ? draftWord({ kind: "paragraph", id: `${ctx.id}-draft` }, ctx) : undefined;
  const lineWidth = ctx.width - (drafted ? drafted.width + ASIDE_GAP : 0);
  if (drafted) items.push(drafted);
  if (kicker !== "") add(kicker, ctx.types.kicker, accent, tag("kind"));
  if (aside !== undefined && aside !== "") {
    const width = ctx.measure.width(aside, ctx.types.caption.weight, ctx.types.caption.size);
    const used = ctx.measure.width(kicker, ctx.types.kicker.weight, ctx.types.kicker.size);
    if (used + ASIDE_GAP + width <= lineWidth)
      items.push(textAt(aside, lineWidth - width, 0.5, ctx.types.caption, { color: quiet, tag: tag("aside") }, ctx));
    else add(aside, ctx.types.caption, quiet, tag("aside"));
  }
  add(text, ctx.types.title, ink, { kind: "heading", level: 1, id: ctx.id });
  if (under !== undefined) add(under, ctx.types.caption, quiet, tag("under"));
  if (note !== undefined) {
    y += ABOVE_NOTE;
    add(note, ctx.types.table, ink, tag("note"));
  }
  return { height: y, items };
}

/** Its line is higher than the kicker's: both stand on one baseline. */
const ABOVE_KICKER = 5;

function draftWord(tag: PlacedItem["tag"], ctx: PartContext) {
  const type = ctx.types.draft;
  const x = ctx.width - ctx.measure.width("Draft", type.weight, type.size);
  return textAt("Draft", x, -ABOVE_KICKER, type, { color: ctx.colors.ink, tag }, ctx);
}
