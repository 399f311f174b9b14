import type { Placed } from "./page.ts";

/** Something set, measured from its own top left corner. */
export type Frame = { readonly height: number; readonly items: readonly Placed[] };

/** The smallest piece of a column that is never divided: a line of text, a row of a table, a chart with its title. */
export type FlowBox = Frame & {
  /** White space above, unless it stands at the top. */
  readonly gap: number;
  /** Stays with the next slab. */
  readonly tie: boolean;
  /** A tie that yields before the others do. */
  readonly loose?: boolean;
  /** A heading: never the last on a page, even where ties yield. */
  readonly heading?: boolean;
  readonly run?: Run;
  /** The first of its run. */
  readonly opens?: boolean;
  /** Lines of small text in cells: may be cut between them where no page can hold it whole. */
  readonly divisible?: boolean;
};

/** Rows under one head, which is repeated wherever they go on. */
export type Run = { readonly head: Frame; readonly again: Frame; readonly close: Frame };

/** The same items, moved. */
export function shift(items: readonly Placed[], dx: number, dy: number): readonly Placed[] {
  if (dx === 0 && dy === 0) return items;
  return items.map((item) =>
    item.kind === "rule"
      ? { ...item, x1: item.x1 + dx, x2: item.x2 + dx, y1: item.y1 + dy, y2: item.y2 + dy }
      : { ...item, x: item.x + dx, y: item.y + dy },
  );
}

/** What a page leaves to a slab, under the head that its run brings along. */
export const roomFor = (slab: FlowBox, pageHeight: number) =>
  pageHeight - (slab.run ? (slab.opens ? slab.run.head : slab.run.again).height + slab.run.close.height : 0);

/** A slab taller than any page, cut between its lines of text: the one way to lose none of it. */
export function splitFlowBox(slab: FlowBox, pageHeight: number): readonly FlowBox[] {
  if (slab.height <= roomFor(slab, pageHeight) || !slab.divisible) return [slab];
  const lines = linesIn(slab);
  const pieces: FlowBox[] = [];
  let from = 0;
  lines.forEach((_, n) => {
    const top = lines[from]!.top;
    const opens = from === 0 && slab.opens === true;
    const next = lines[n + 1];
    if (next && next.end - top <= roomFor({ ...slab, opens }, pageHeight)) return;
    const inside = slab.items.filter((item) => isWithin(item, lines[from]!, next));
    pieces.push({
      ...slab,
      height: lines[n]!.end - top,
      items: shift(inside, 0, -top),
      gap: from === 0 ? slab.gap : 0,
      tie: next === undefined && slab.tie,
      opens,
    });
    from = n + 1;
  });
  return pieces;
}

/** A line of text across a slab: its baseline, where its box begins, and where it ends together with all before it. */
type TextLine = { readonly baseline: number; readonly top: number; readonly end: number };

function linesIn(slab: FlowBox): readonly TextLine[] {
  const texts = slab.items.filter((item) => item.kind === "text").sort((a, b) => a.y - b.y);
  const first = texts.filter(({ y }, i) => i === 0 || y - texts[i - 1]!.y > SAME_LINE);
  const rise = first[0]?.y ?? 0;
  return first.map(({ y, size }, i) => {
    // A line's box ends where the next one's begins, but never above its descenders: columns may be out of step.
    const next = first[i + 1];
    return { baseline: y, top: y - rise, end: next ? Math.max(next.y - rise, y + size * 0.25) : slab.height };
  });
}

/** Baselines closer than this are one [pt]. */
const SAME_LINE = 0.01;

/** Text by its baseline, whatever stands beside it by its top. */
function isWithin(item: Placed, first: TextLine, after: TextLine | undefined): boolean {
  if (item.kind === "text")
    return item.y >= first.baseline - SAME_LINE && (!after || item.y < after.baseline - SAME_LINE);
  const top = Math.max(0, item.kind === "rule" ? item.y1 : item.y);
  return top >= first.top && (!after || top < after.top);
}
