import type { Blank, Blanks } from "../../sheet/content.ts";
import type { FlowBox, Frame } from "../flow-box.ts";
import { ruleAt, textAt, textBox } from "../set-text.ts";
import type { PartContext } from "../setting.ts";

/** Room for pencil above each rule. */
const room = 15;
const gutter = 9;
const rule = 0.6;

/** Labels, each over its rule, side by side; what is written already stands on the rule. They stay with what follows. */
export function blanks(part: Blanks, ctx: PartContext): readonly FlowBox[] {
  return part.rows.map((row, r) => {
    const shares = row.reduce((sum, { share }) => sum + share, 0);
    const unit = (ctx.width - (row.length - 1) * gutter) / shares;
    let x = 0;
    const frames = row.map((blank, c) => {
      const frame = blankFrame(blank, x, blank.share * unit, `${ctx.id}-${r}-${c}`, ctx);
      x += blank.share * unit + gutter;
      return frame;
    });
    const height = Math.max(...frames.map((frame) => frame.height));
    return {
      height,
      items: frames.flatMap(({ items }) => items),
      gap: r === 0 ? 5 : 2.5,
      tie: true,
    };
  });
}

function blankFrame(blank: Blank, x: number, width: number, id: string, ctx: PartContext): Frame {
  const ink = { color: ctx.colors.ink, tag: { kind: "paragraph", id } } as const;
  const regular = (text: string) => [{ text, weight: "regular" }] as const;
  const label = textBox(regular(blank.label), { x, y: 0, width }, ctx.types.caption, ink, ctx);
  const unitWidth = ctx.measure.width(blank.unit ?? "", "regular", ctx.types.caption.size);
  const inside = { x, y: 0, width: width - (unitWidth > 0 ? unitWidth + 4 : 0) };
  const value = textBox(regular(blank.value ?? ""), inside, ctx.types.body, ink, ctx);
  const first = Math.max(room, value.height + 2);
  const bottom = label.height + first + (blank.lines - 1) * room;
  // What is known stands on the first rule, its unit at the rule's end.
  const down = label.height + first - value.height - 1;
  const unitTop = label.height + first - ctx.types.caption.lead - 1;
  return {
    height: bottom + 1,
    items: [
      ...label.items,
      ...value.items.map((item) => (item.kind === "text" ? { ...item, y: item.y + down } : item)),
      ...(blank.unit ? [textAt(blank.unit, x + width - unitWidth, unitTop, ctx.types.caption, ink, ctx)] : []),
      ...Array.from({ length: blank.lines }, (_, n) =>
        ruleAt(label.height + first + n * room, x, x + width, rule, ctx.colors.ink, ctx),
      ),
    ],
  };
}
