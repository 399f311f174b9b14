import type { KeyRow } from "../../sheet/content.ts";
import type { FlowBox, Frame } from "../flow-box.ts";
import { shift } from "../flow-box.ts";
import type { PlacedItem } from "../page.ts";
import { baselineOffset, ruleAt, textAt, textBox } from "../set-text.ts";
import type { PartContext } from "../setting.ts";
import { grid, space } from "../type-sizes.ts";
import { pairTag } from "./pair-tag.ts";

type Pair = KeyRow["pairs"][number];

/** From the rule to the labels, from a value to its note beside it [pt]. */
const UNDER_RULE = 5;
const NOTE_GAP = 4;
/** White over and under a row on a phone [pt]. */
const ROW_WHITE = 4.5;

/** Pairs side by side under one rule: label over value, a short note after the value, a long one under it. */
export function keyRow(part: KeyRow, ctx: PartContext): readonly FlowBox[] {
  const across = part.pairs.length;
  if (across === 0) return [];
  if (ctx.phone) return stackedRows(part, ctx);
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

/** On a phone one under the other between rules: label left, value and note at the right. */
function stackedRows({ pairs }: KeyRow, ctx: PartContext): readonly FlowBox[] {
  const rule = (y: number) => ruleAt(y, 0, ctx.width, 0.75, ctx.colors.rule, ctx);
  return pairs.map((pair, i) => {
    const { items, height } = stackedRow(pair, i, ctx);
    const last = i === pairs.length - 1;
    const closing = last ? [rule(height + 0.5)] : [];
    return { height: height + (last ? 1 : 0), items: [rule(0.5), ...items, ...closing], gap: 0, tie: !last };
  });
}

function stackedRow({ label, value, note = "" }: Pair, i: number, ctx: PartContext): Frame {
  const { keyValue, table } = ctx.types;
  const body = { color: ctx.colors.ink, tag: pairTag(ctx.id, i, "body") };
  const words = [
    { text: value, weight: keyValue.weight },
    { text: note, weight: "regular" as const },
  ].filter(({ text }) => text !== "");
  const natural = words.reduce((sum, { text, weight }) => sum + ctx.measure.width(text, weight, keyValue.size), 0);
  const space = (words.length - 1) * ctx.measure.width(" ", "regular", keyValue.size);
  const width = Math.min(natural + space + 0.01, ctx.width * 0.6);
  const said = textBox(words, { x: ctx.width - width, y: ROW_WHITE, width }, keyValue, body, ctx);
  const named = textBox(
    [{ text: label, weight: "regular" }],
    { x: 0, y: ROW_WHITE, width: ctx.width - width - grid.gutter },
    table,
    { color: ctx.colors.quiet, tag: pairTag(ctx.id, i, "label") },
    ctx,
  );
  return { height: Math.max(said.height, named.height) + 2 * ROW_WHITE, items: [...named.items, ...said.items] };
}

function labelFrame({ label }: Pair, i: number, ctx: PartContext): Frame {
  const box = { x: 0, y: UNDER_RULE, width: ctx.width };
  const frame = textBox(
    [{ text: label, weight: "regular" }],
    box,
    ctx.types.caption,
    { color: ctx.colors.quiet, tag: pairTag(ctx.id, i, "label") },
    ctx,
  );
  return { ...frame, height: frame.height + UNDER_RULE };
}

function valueFrame({ value, note = "" }: Pair, i: number, start: number, ctx: PartContext): Frame {
  const { keyValue, caption } = ctx.types;
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
