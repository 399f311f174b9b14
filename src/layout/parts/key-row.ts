import type { KeyRow } from "../../sheet/content.ts";
import type { FlowBox, Frame } from "../flow-box.ts";
import { shift } from "../flow-box.ts";
import type { PlacedItem } from "../page.ts";
import { baselineOffset, ruleAt, textAt, textBox } from "../set-text.ts";
import type { PartContext } from "../setting.ts";
import { grid, space, types } from "../type-sizes.ts";
import { pairTag } from "./pair-tag.ts";

type Pair = KeyRow["pairs"][number];

/** From the rule to the labels, from a value to its note beside it [pt]. */
const UNDER_RULE = 5;
const NOTE_GAP = 4;

/** Pairs side by side under one rule: label over value, a short note after the value, a long one under it. */
export function keyRow(part: KeyRow, ctx: PartContext): readonly FlowBox[] {
  const across = part.pairs.length;
  if (across === 0) return [];
  const width = (ctx.width - (across - 1) * grid.gutter) / across;
  const labels = part.pairs.map((pair, i) => labelFrame(pair, i, { ...ctx, width }));
  const start = Math.max(...labels.map((frame) => frame.height));
  const values = part.pairs.map((pair, i) => valueFrame(pair, i, start, { ...ctx, width }));
  return [
    {
      height: Math.max(...values.map((frame) => frame.height)),
      items: [
        ruleAt(0.5, 0, ctx.width, 0.75, ctx.colors.rule, ctx),
        ...part.pairs.flatMap((_, i) =>
          shift([...labels[i]!.items, ...values[i]!.items], i * (width + grid.gutter), 0),
        ),
      ],
      gap: space.part,
      tie: false,
    },
  ];
}

function labelFrame({ label }: Pair, i: number, ctx: PartContext): Frame {
  const box = { x: 0, y: UNDER_RULE, width: ctx.width };
  const frame = textBox(
    [{ text: label, weight: "regular" }],
    box,
    types.caption,
    { color: ctx.colors.quiet, tag: pairTag(ctx.id, i, "label") },
    ctx,
  );
  return { ...frame, height: frame.height + UNDER_RULE };
}

function valueFrame({ value, note = "" }: Pair, i: number, start: number, ctx: PartContext): Frame {
  const { keyValue, caption } = types;
  const tag = pairTag(ctx.id, i, "body");
  const box = { x: 0, y: start, width: ctx.width };
  const own = textBox([{ text: value, weight: keyValue.weight }], box, keyValue, { color: ctx.colors.ink, tag }, ctx);
  if (note === "") return { ...own, height: start + own.height };
  const quiet = { color: ctx.colors.quiet, tag };
  const end = ctx.measure.width(value, keyValue.weight, keyValue.size) + NOTE_GAP;
  const beside = own.height <= keyValue.lead && end + ctx.measure.width(note, "regular", caption.size) <= ctx.width;
  if (beside) {
    const y = start + baselineOffset(keyValue, ctx) - baselineOffset(caption, ctx);
    const items: PlacedItem[] = [...own.items, textAt(note, end, y, caption, quiet, ctx)];
    return { height: start + own.height, items };
  }
  const under = textBox([{ text: note, weight: "regular" }], { ...box, y: start + own.height }, caption, quiet, ctx);
  return { height: start + own.height + under.height, items: [...own.items, ...under.items] };
}
