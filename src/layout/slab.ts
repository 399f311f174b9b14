import type { Placed } from "./page.ts";

/** Something set, measured from its own top left corner. */
export type Frame = { readonly height: number; readonly items: readonly Placed[] };

/** The smallest piece of a column that is never divided: a line of text, a row of a table, a chart with its title. */
export type Slab = Frame & {
  /** White space above, unless it stands at the top. */
  readonly gap: number;
  /** Stays with the next slab. */
  readonly tie: boolean;
  /** A heading: never the last on a page, even where ties yield. */
  readonly heading?: boolean;
  readonly run?: Run;
  /** The first of its run. */
  readonly opens?: boolean;
};

/** Rows under one head, which is repeated wherever they go on. */
export type Run = { readonly head: Frame; readonly again: Frame; readonly close: Frame };

/** The same items, moved. */
export function shift(items: readonly Placed[], dx: number, dy: number): readonly Placed[] {
  return items.map((item) =>
    item.kind === "rule"
      ? { ...item, x1: item.x1 + dx, x2: item.x2 + dx, y1: item.y1 + dy, y2: item.y2 + dy }
      : { ...item, x: item.x + dx, y: item.y + dy },
  );
}

/** A slab taller than any page, cut between its lines of text: the one way to lose none of it. */
export function cutToFit(slab: Slab, limit: number): readonly Slab[] {
  const room = limit - (slab.run ? slab.run.again.height + slab.run.close.height : 0);
  const lines = slab.items.filter((item) => item.kind === "text");
  if (slab.height <= room || lines.length !== slab.items.length) return [slab];
  const baselines = [...new Set(lines.map((line) => line.y))].sort((a, b) => a - b);
  // A line's box ends where the next one's begins.
  const pieces: Slab[] = [];
  let top = 0;
  let from = 0;
  baselines.forEach((_, n) => {
    const end = n + 1 < baselines.length ? baselines[n + 1]! - baselines[0]! : slab.height;
    const next = n + 2 < baselines.length ? baselines[n + 2]! - baselines[0]! : slab.height;
    if (n + 1 < baselines.length && next - top <= room) return;
    const inside = lines.filter((line) => line.y >= baselines[from]! && line.y <= baselines[n]!);
    pieces.push({
      ...slab,
      height: end - top,
      items: shift(inside, 0, -top),
      gap: from === 0 ? slab.gap : 0,
      tie: n + 1 === baselines.length && slab.tie,
      opens: from === 0 && slab.opens === true,
    });
    top = end;
    from = n + 1;
  });
  return pieces;
}
