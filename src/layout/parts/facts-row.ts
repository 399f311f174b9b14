import type { FactsRow } from "../../sheet/content.ts";
import type { FlowBox } from "../flow-box.ts";
import { ruleAt, textBox } from "../set-text.ts";
import type { PartContext } from "../setting.ts";
import { grid, space } from "../type-sizes.ts";
import { pairTag } from "./pair-tag.ts";

/** From the rules to the text [pt]. */
const RULE_GAP = 5;
/** No fact asks for more of the width than this, however long [pt]. */
const WIDEST = 170;

/** Facts side by side between two rules, each under its label; longer ones get more of the width. */
export function factsRow({ facts }: FactsRow, ctx: PartContext): readonly FlowBox[] {
  if (facts.length === 0) return [];
  const widths = shareWidths(facts, ctx);
  let x = 0;
  const cells = facts.map(({ label, value }, i) => {
    const box = (y: number) => ({ x, y, width: widths[i]! });
    const head = textBox(
      [{ text: label, weight: "regular" }],
      box(RULE_GAP),
      ctx.types.caption,
      { color: ctx.colors.quiet, tag: pairTag(ctx.id, i, "label") },
      ctx,
    );
    const top = RULE_GAP + head.height;
    const said = textBox(
      [{ text: value, weight: "regular" }],
      box(top),
      ctx.types.table,
      { color: ctx.colors.ink, tag: pairTag(ctx.id, i, "body") },
      ctx,
    );
    x += widths[i]! + grid.gutter;
    return { height: top + said.height, items: [...head.items, ...said.items] };
  });
  const height = Math.max(...cells.map((cell) => cell.height)) + RULE_GAP;
  const rules = [
    ruleAt(0.5, 0, ctx.width, 0.75, ctx.colors.rule, ctx),
    ruleAt(height, 0, ctx.width, 0.5, ctx.colors.rule, ctx),
  ];
  const items = [...rules, ...cells.flatMap((cell) => cell.items)];
  return [{ height: height + 0.5, items, gap: space.part, tie: false }];
}

/** Natural widths; where they are more than the room the widest give way, where less each gets the same more. */
function shareWidths(facts: FactsRow["facts"], ctx: PartContext): readonly number[] {
  const natural = facts.map(({ label, value }) => {
    const text = ctx.measure.width(value, ctx.types.table.weight, ctx.types.table.size);
    return Math.min(WIDEST, Math.max(text, ctx.measure.width(label, "regular", ctx.types.caption.size))) + 1;
  });
  const room = ctx.width - (facts.length - 1) * grid.gutter;
  const sum = (widths: readonly number[]) => widths.reduce((total, width) => total + width, 0);
  const capped = (most: number) => natural.map((width) => Math.min(width, most));
  const most = natural.toSorted((a, b) => b - a).find((_, i, sorted) => sum(capped(sorted[i + 1] ?? 0)) <= room);
  const wide = natural.filter((width) => width >= (most ?? 0)).length;
  const narrow = sum(natural.filter((width) => width < (most ?? 0)));
  const fitted = sum(natural) <= room ? natural : capped((room - narrow) / wide);
  return fitted.map((width) => width + Math.max(0, room - sum(fitted)) / facts.length);
}
