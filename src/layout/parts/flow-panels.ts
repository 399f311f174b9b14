import type { FlowPanelCell, FlowPanels } from "../../sheet/content.ts";
import { type FlowBox, type Frame, shift } from "../flow-box.ts";
import type { PlacedItem, Tag } from "../page.ts";
import { baselineOffset, captionBelow, textAt, textBox } from "../set-text.ts";
import { grownHeight, type PartContext } from "../setting.ts";
import { grid, space, type TypeSizes } from "../type-sizes.ts";
import { markRoom, verdictMark } from "./verdict-mark.ts";

/** Least height of a panel or strip [pt]. */
const LEAST = 50;
/** Gaps: number to unit, number to verdict, words to panel, panel to the strip's title [pt]. */
const UNIT_GAP = 6;
const VERDICT_GAP = 12;
const PANEL_GAP = 3;
const STRIP_GAP = 6;
const UNDER_NUMBER = 3;
const CLEAR_OF_NUMBER = 4.5;
const STRIP_HEIGHT = 90;

/** Panels side by side, each under its number: heading, number, verdict and what it was are one paragraph, the figure follows. */
export function flowPanels(part: FlowPanels, ctx: PartContext): readonly FlowBox[] {
  const across = part.panels.length;
  if (across === 0) return [];
  const width = (ctx.width - (across - 1) * grid.gutter) / across;
  const group = `${ctx.id}-panels`;
  const inner = { ...ctx, width };
  const grouped = part.caption === undefined ? {} : { group };
  const tag = (i: number): Tag => ({ kind: "paragraph", id: `${ctx.id}-number${i}`, ...grouped });
  const headings = part.panels.map(({ heading }, i) =>
    textBox(
      [{ text: heading, weight: "semibold" }],
      { x: 0, y: 0, width },
      ctx.types.section,
      { color: ctx.colors.ink, tag: tag(i) },
      ctx,
    ),
  );
  // Numbers share one baseline, and panels one top.
  const start = Math.max(...headings.map((frame) => frame.height));
  const words = part.panels.map((panel, i) => numberLines(panel, tag(i), start, inner));
  const top = Math.max(...words.map((frame) => frame.height)) + PANEL_GAP;
  const caption = captionBelow(part.caption, group, ctx.width, ctx);
  const strips = part.panels.map(({ strip }, i) =>
    stripFrame(strip, i, part.stripHeight ?? STRIP_HEIGHT, grouped, inner),
  );
  const below = Math.max(0, ...strips.map((frame) => frame.height));
  const height = Math.min(
    grownHeight(part, "plot", ctx),
    Math.max(LEAST, ctx.pageHeight - top - below - caption.height),
  );
  const items = part.panels.flatMap(({ chart, alt }, i): readonly PlacedItem[] => {
    const drawing = ctx.draw(chart, { width, height }, {});
    const figure = { kind: "figure", id: `${ctx.id}-${i}`, alt, ...grouped } as const;
    const panel = { kind: "drawing", x: 0, y: top, drawing, tag: figure, block: ctx.block } as const;
    const own = [...headings[i]!.items, ...words[i]!.items, panel, ...shift(strips[i]!.items, 0, top + height)];
    return shift(own, i * (width + grid.gutter), 0);
  });
  const foot = top + height + below;
  return [
    { height: foot + caption.height, items: [...items, ...shift(caption.items, 0, foot)], gap: space.part, tie: false },
  ];
}

/** The number with its unit left, the verdict right on the same baseline, what it was below; a verdict without room goes below too. */
function numberLines(panel: FlowPanelCell, tag: Tag, start: number, ctx: PartContext): Frame {
  const { accent, ink, quiet } = ctx.colors;
  const { bigNumber, table, verdict, caption } = ctx.types;
  const items: PlacedItem[] = [];
  const baseline = start + baselineOffset(bigNumber, ctx);
  const width = (text: string, type: TypeSizes["verdict" | "table" | "bigNumber"]) =>
    ctx.measure.width(text, type.weight, type.size);
  let end = 0;
  if (panel.number) {
    items.push(textAt(panel.number.text, 0, start, bigNumber, { color: accent, tag }, ctx));
    end = width(panel.number.text, bigNumber);
    const unitTop = baseline - baselineOffset(table, ctx);
    items.push(textAt(panel.number.unit, end + UNIT_GAP, unitTop, table, { color: ink, tag }, ctx));
    end += UNIT_GAP + width(panel.number.unit, table);
  }
  let y = panel.number ? baseline + UNDER_NUMBER : start;
  if (panel.verdict) {
    const { mark, text } = panel.verdict;
    const own = width(text, verdict) + (mark ? markRoom(verdict) : 0);
    const beside = end + VERDICT_GAP + own <= ctx.width;
    if (!beside && panel.number) y = start + bigNumber.lead + UNDER_NUMBER;
    const [x, top] = beside ? [ctx.width - own, baseline - baselineOffset(verdict, ctx)] : [0, y];
    if (mark) items.push(verdictMark(mark, x, top, verdict, ctx));
    const left = x + (mark ? markRoom(verdict) : 0);
    const box = { x: left, y: top, width: ctx.width - left };
    const words = textBox([{ text, weight: verdict.weight }], box, verdict, { color: ink, tag }, ctx);
    items.push(...words.items);
    if (!beside) y += words.height;
  }
  if (panel.was !== undefined) {
    const own = ctx.measure.width(panel.was, caption.weight, caption.size);
    // On the number's line where no verdict takes it.
    const level = panel.number !== undefined && !panel.verdict && end + VERDICT_GAP + own <= ctx.width;
    if (level) y = baseline - baselineOffset(caption, ctx);
    const left = Math.max(0, ctx.width - own);
    // Under the number itself it keeps clear of its descenders.
    if (!level && left < end) y = Math.max(y, baseline + CLEAR_OF_NUMBER);
    const box = { x: left, y, width: Math.min(own, ctx.width) };
    const was = textBox([{ text: panel.was, weight: caption.weight }], box, caption, { color: quiet, tag }, ctx);
    items.push(...was.items);
    y += was.height;
  }
  return { height: Math.max(y, panel.number ? baseline + 6 : y), items };
}

/** A strip under its title; nothing where a panel has none. */
function stripFrame(
  strip: FlowPanelCell["strip"],
  index: number,
  height: number,
  grouped: { readonly group?: string },
  ctx: PartContext,
): Frame {
  if (!strip) return { height: 0, items: [] };
  const place = { x: 0, y: STRIP_GAP, width: ctx.width };
  const tag = { kind: "paragraph", id: `${ctx.id}-strip${index}`, ...grouped } as const;
  const title = textBox(
    [{ text: strip.title, weight: "semibold" }],
    place,
    ctx.types.tableStrong,
    { color: ctx.colors.ink, tag },
    ctx,
  );
  const top = STRIP_GAP + title.height;
  const drawing = ctx.draw(strip.chart, { width: ctx.width, height }, {});
  const figure = { kind: "figure", id: `${ctx.id}-strip-figure${index}`, alt: strip.alt, ...grouped } as const;
  return {
    height: top + height,
    items: [...title.items, { kind: "drawing", x: 0, y: top, drawing, tag: figure, block: ctx.block }],
  };
}
