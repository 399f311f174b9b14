import type { Headline } from "../../sheet/content.ts";
import { type FlowBox, type Frame, shift } from "../flow-box.ts";
import type { Placed } from "../page.ts";
import { ruleAt, textAt, textBox } from "../set-text.ts";
import type { Setting } from "../setting.ts";
import { grid, space, type Type, types } from "../type-sizes.ts";
import { markRoom, verdictMark } from "./verdict-mark.ts";

type Cell = Headline["cells"][number];
const top = 5;

/** The big numbers, side by side in equal columns, each under a rule; what belongs to one number is one paragraph. */
export function headline(part: Headline, set: Setting): readonly FlowBox[] {
  const across = acrossIn(part, set);
  const width = widthOf(across, set);
  const inner = { ...set, width };
  const rows = Array.from({ length: Math.ceil(part.cells.length / across) }, (_, r) => r * across);
  return rows.map((first, r) => {
    const cells = part.cells.slice(first, first + across);
    const labels = cells.map((cell, i) => label(cell, first + i, part.large === true, inner));
    // Numbers stand on one line across, however long their labels are.
    const start = top + Math.max(...labels.map((frame) => frame.height));
    const bodies = cells.map((cell, i) => body(cell, first + i, start, part.large === true, inner));
    return {
      height: Math.max(...bodies.map((frame) => frame.height)),
      items: cells.flatMap((_, i) => {
        const items = [ruleAt(0.5, 0, width, 0.75, set.colors.rule, set), ...labels[i]!.items, ...bodies[i]!.items];
        return shift(items, i * (width + grid.gutter), 0);
      }),
      gap: r === 0 ? space.part : space.row,
      tie: false,
    };
  });
}

const widthOf = (across: number, set: Setting) => (set.width - (across - 1) * grid.gutter) / across;

/** As many side by side as leave every number whole. */
function acrossIn(part: Headline, set: Setting): number {
  const most = Math.max(1, Math.min(part.cells.length, part.large ? 3 : 4));
  const { weight, size } = types.number;
  const widest = Math.max(0, ...part.cells.map(({ number }) => set.measure.width(number, weight, size)));
  const fitting = Array.from({ length: most }, (_, i) => most - i).find((across) => widthOf(across, set) >= widest);
  return fitting ?? 1;
}

function label(cell: Cell, index: number, large: boolean, set: Setting): Frame {
  const ink = { color: set.colors.quiet, tag: tagOf(index, set) };
  const type = large ? types.body : types.table;
  return textBox([{ text: cell.label, weight: "regular" }], { x: 0, y: top, width: set.width }, type, ink, set);
}

function body(cell: Cell, index: number, start: number, large: boolean, set: Setting): Frame {
  const tag = tagOf(index, set);
  const { accent, ink, quiet } = set.colors;
  const items: Placed[] = [];
  let y = start;
  const add = (text: string, type: Type, color: string, indent = 0) => {
    const box = { x: indent, y, width: set.width - indent };
    const frame = textBox([{ text, weight: type.weight }], box, type, { color, tag }, set);
    items.push(...frame.items);
    y += frame.height;
  };

  add(cell.number, types.number, accent);
  const last = items.at(-1);
  const after = last?.kind === "text" ? last.x + last.width + 4 : 0;
  const unitFits = after + set.measure.width(cell.unit ?? "", "regular", types.body.size) <= set.width;
  if (cell.unit !== undefined && unitFits) {
    // On the number's own baseline, whose lead it borrows.
    const unit = { ...types.body, lead: types.number.lead };
    const drop = (set.measure.capHeight * (types.number.size - unit.size)) / 2;
    items.push(textAt(cell.unit, after, y - types.number.lead + drop, unit, { color: ink, tag }, set));
  }
  if (cell.unit !== undefined && !unitFits) add(cell.unit, types.body, ink);
  y += 2;
  if (cell.verdict) {
    const type = large ? types.verdictLarge : types.strong;
    items.push(verdictMark(cell.verdict.mark, 0, y, type, set));
    add(cell.verdict.text, type, ink, markRoom(type));
  }
  // Always under the verdict, so that verdicts, too, stand on one line across.
  if (cell.was !== undefined) add(cell.was, types.table, quiet);
  if (cell.note !== undefined) add(cell.note, types.caption, quiet);
  return { height: y, items };
}

const tagOf = (index: number, set: Setting) => ({ kind: "paragraph", id: `${set.id}-${index}` }) as const;
