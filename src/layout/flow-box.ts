import type { PlacedItem } from "./page.ts";

/** Placed items, measured from their own top left corner. */
export type Frame = { readonly height: number; readonly items: readonly PlacedItem[] };

/** The smallest piece of a column that is never divided: a line of text, a row of a table, a chart with its title. */
export type FlowBox = Frame & {
  /** White space above, unless it stands at the top. */
  readonly gap: number;
  /** Kept with the next box. */
  readonly tie: boolean;
  /** A tie that yields before the others do. */
  readonly loose?: boolean;
  /** A heading: never the last on a page, even where ties yield. */
  readonly heading?: boolean;
  readonly run?: RepeatedHead;
  /** The first of its run. */
  readonly opens?: boolean;
  /** Lines of small text in cells: may be cut between them where no page can hold it whole. */
  readonly divisible?: boolean;
};

/** Head of rows, repeated on each page they continue on. */
export type RepeatedHead = { readonly head: Frame; readonly again: Frame; readonly close: Frame };

/** Moves items. */
export function shift(items: readonly PlacedItem[], dx: number, dy: number): readonly PlacedItem[] {
  if (dx === 0 && dy === 0) return items;
  return items.map((item) =>
    item.kind === "rule"
      ? { ...item, x1: item.x1 + dx, x2: item.x2 + dx, y1: item.y1 + dy, y2: item.y2 + dy }
      : { ...item, x: item.x + dx, y: item.y + dy },
  );
}

/** Height that a page leaves to a box under its run's head. */
export const availableHeight = (box: FlowBox, pageHeight: number) =>
  pageHeight - (box.run ? (box.opens ? box.run.head : box.run.again).height + box.run.close.height : 0);

/** A box taller than any page, cut between its lines of text: the one way to lose none of it. */
export function splitFlowBox(box: FlowBox, pageHeight: number): readonly FlowBox[] {
  if (box.height <= availableHeight(box, pageHeight) || !box.divisible) return [box];
  const lines = textLines(box);
  const pieces: FlowBox[] = [];
  let from = 0;
  lines.forEach((_, n) => {
    const top = lines[from]!.top;
    const opens = from === 0 && box.opens === true;
    const next = lines[n + 1];
    if (next && next.end - top <= availableHeight({ ...box, opens }, pageHeight)) return;
    const inside = box.items.filter((item) => isInPiece(item, lines[from]!, next));
    pieces.push({
      ...box,
      height: lines[n]!.end - top,
      items: shift(inside, 0, -top),
      gap: from === 0 ? box.gap : 0,
      tie: next === undefined && box.tie,
      opens,
    });
    from = n + 1;
  });
  return pieces;
}

/** A line of text across a box: its baseline, where its box begins, and where it ends together with all before it. */
type TextLine = { readonly baseline: number; readonly top: number; readonly end: number };

function textLines(box: FlowBox): readonly TextLine[] {
  const texts = box.items.filter((item) => item.kind === "text").sort((a, b) => a.y - b.y);
  const first = texts.filter(({ y }, i) => i === 0 || y - texts[i - 1]!.y > SAME_LINE);
  const rise = first[0]?.y ?? 0;
  return first.map(({ y, size }, i) => {
    // A line's box ends where the next one's begins, but never above its descenders: columns may be out of step.
    const next = first[i + 1];
    return { baseline: y, top: y - rise, end: next ? Math.max(next.y - rise, y + size * 0.25) : box.height };
  });
}

/** Baselines closer than this are one [pt]. */
const SAME_LINE = 0.01;

/** Text by its baseline, whatever stands beside it by its top. */
function isInPiece(item: PlacedItem, first: TextLine, after: TextLine | undefined): boolean {
  if (item.kind === "text")
    return item.y >= first.baseline - SAME_LINE && (!after || item.y < after.baseline - SAME_LINE);
  const top = Math.max(0, item.kind === "rule" ? item.y1 : item.y);
  return top >= first.top && (!after || top < after.top);
}
