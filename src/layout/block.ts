import type { FlowBox, Frame } from "./flow-box.ts";
import { shift } from "./flow-box.ts";

/**
 * Room on a page. `fresh`: nothing above it, so waiting for more room cannot help. `pressed`: waiting would leave the page
 * mostly empty, so what may not be divided is divided after all.
 */
export type Region = { readonly height: number; readonly fresh: boolean; readonly pressed: boolean };

/** `frame` null: nothing fitted. `rest` null: done. */
type Fill = { readonly frame: Frame | null; readonly rest: Block | null };

/** Anything that can be set on a page. The law: in a fresh region, fill() makes progress. */
export type Block = {
  readonly fill: (region: Region) => Fill;
  readonly endsInHeading: boolean;
  /** Height of the whole block, undivided [pt]. */
  readonly height: number;
};

/** Stacks boxes, divided where ties allow; `split` false keeps them together if a page can hold them. */
export function columnBlock(boxes: readonly FlowBox[], split: boolean): Block {
  const block: Block = {
    endsInHeading: boxes.at(-1)?.heading === true,
    height: stackHeight(boxes),
    fill({ height, fresh, pressed }) {
      const fitting = countFitting(boxes, height);
      if (fitting === boxes.length) return { frame: stackBoxes(boxes), rest: null };
      const count = split || fresh || pressed ? breakIndex(boxes, fitting, height, fresh) : 0;
      if (count === 0) return { frame: null, rest: block };
      return { frame: stackBoxes(boxes.slice(0, count)), rest: columnBlock(boxes.slice(count), split) };
    },
  };
  return block;
}

/** Blocks side by side with aligned tops: none starts before all can. */
export function rowBlock(cells: readonly { readonly x: number; readonly block: Block }[]): Block {
  const block: Block = {
    endsInHeading: cells.some((cell) => cell.block.endsInHeading),
    height: Math.max(0, ...cells.map((cell) => cell.block.height)),
    fill(region) {
      const fills = cells.map((cell) => cell.block.fill(region));
      const divided = fills.some((fill) => fill.rest !== null);
      // A column that ends in a heading would be left with it while its neighbour goes on overleaf.
      const stranded = divided && fills.some((fill, i) => fill.rest === null && cells[i]!.block.endsInHeading);
      const waits = stranded || fills.some((fill) => fill.frame === null);
      if (!region.fresh && waits) return { frame: null, rest: block };
      const frames = fills.map((fill) => fill.frame ?? { height: 0, items: [] });
      const rest = fills.flatMap((fill, i) => (fill.rest ? [{ x: cells[i]!.x, block: fill.rest }] : []));
      return {
        frame: {
          height: Math.max(...frames.map((frame) => frame.height)),
          items: frames.flatMap((frame, i) => shift(frame.items, cells[i]!.x, 0)),
        },
        rest: rest.length > 0 ? rowBlock(rest) : null,
      };
    },
  };
  return block;
}

/** Number of boxes before the break, at most `fitting`; 0: wait for the next page. */
function breakIndex(boxes: readonly FlowBox[], fitting: number, height: number, fresh: boolean): number {
  const last = (allowed: (box: FlowBox) => boolean) => boxes.slice(0, fitting).findLastIndex(allowed) + 1;
  const polite = last((box) => !box.tie);
  const full = (count: number) => stackBoxes(boxes.slice(0, count)).height > height / 2;
  if (!fresh || full(polite)) return polite;
  // Rather than leave a page mostly empty, break ties: loose ones first, a heading only if nothing else is on the page.
  const loosely = last((box) => !box.tie || box.loose === true);
  if (full(loosely)) return loosely;
  const anywhere = last((box) => !box.heading);
  return Math.max(polite, anywhere) || Math.max(1, fitting);
}

function countFitting(boxes: readonly FlowBox[], height: number): number {
  let y = 0;
  for (const [i, box] of boxes.entries()) {
    y = placeBelow(box, boxes[i - 1], y).y + box.height;
    const closes = box.run !== undefined && boxes[i + 1]?.run !== box.run;
    if (y + (box.run?.close.height ?? 0) > height + 1e-6) return i;
    if (closes) y += box.run.close.height;
  }
  return boxes.length;
}

function stackHeight(boxes: readonly FlowBox[]): number {
  let y = 0;
  for (const [i, box] of boxes.entries()) {
    y = placeBelow(box, boxes[i - 1], y).y + box.height;
    if (box.run && boxes[i + 1]?.run !== box.run) y += box.run.close.height;
  }
  return y;
}

function stackBoxes(boxes: readonly FlowBox[]): Frame {
  const items: Frame["items"][number][] = [];
  let y = 0;
  for (const [i, box] of boxes.entries()) {
    const place = placeBelow(box, boxes[i - 1], y);
    if (place.head) items.push(...shift(place.head.items, 0, place.y - place.head.height));
    items.push(...shift(box.items, 0, place.y));
    y = place.y + box.height;
    if (box.run && boxes[i + 1]?.run !== box.run) {
      items.push(...shift(box.run.close.items, 0, y));
      y += box.run.close.height;
    }
  }
  return { height: y, items };
}

/** Where a box goes below the one before it, and the head it brings if its run starts here or goes on here. */
function placeBelow(
  box: FlowBox,
  before: FlowBox | undefined,
  y: number,
): { readonly y: number; readonly head?: Frame } {
  if (box.run === undefined || before?.run === box.run) return { y: before === undefined ? 0 : y + box.gap };
  const head = box.opens ? box.run.head : box.run.again;
  return { y: (before === undefined ? 0 : y + box.gap) + head.height, head };
}
