import type { FlowBox, Frame } from "./flow-box.ts";
import { shift } from "./flow-box.ts";

/**
 * Room on a page. `fresh`: nothing above it, so waiting for more room cannot help. `pressed`: waiting would leave the page
 * mostly empty, so what may not be divided is divided after all.
 */
export type Region = { readonly height: number; readonly fresh: boolean; readonly pressed: boolean };

/** frame null: nothing fitted. rest null: done. */
export type Fill = { readonly frame: Frame | null; readonly rest: Block | null };

/** Anything that can be set on a page. The law: in a fresh region, fill() makes progress. */
export type Block = { readonly fill: (region: Region) => Fill; readonly endsInHeading: boolean };

/** Slabs one under the other, divided where ties allow; `split` false keeps them together if a page can hold them. */
export function column(slabs: readonly FlowBox[], split: boolean): Block {
  const block: Block = {
    endsInHeading: slabs.at(-1)?.heading === true,
    fill({ height, fresh, pressed }) {
      const fitting = howManyFit(slabs, height);
      if (fitting === slabs.length) return { frame: stacked(slabs), rest: null };
      const count = split || fresh || pressed ? breakAt(slabs, fitting, height, fresh) : 0;
      if (count === 0) return { frame: null, rest: block };
      return { frame: stacked(slabs.slice(0, count)), rest: column(slabs.slice(count), split) };
    },
  };
  return block;
}

/** Blocks side by side. None starts before all can: their tops stand in one line. */
export function sideBySide(cells: readonly { readonly x: number; readonly block: Block }[]): Block {
  const block: Block = {
    endsInHeading: cells.some((cell) => cell.block.endsInHeading),
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
        rest: rest.length > 0 ? sideBySide(rest) : null,
      };
    },
  };
  return block;
}

/** After how many slabs to break, at most `fitting`; 0: wait for the next page. */
function breakAt(slabs: readonly FlowBox[], fitting: number, height: number, fresh: boolean): number {
  const last = (allowed: (slab: FlowBox) => boolean) => slabs.slice(0, fitting).findLastIndex(allowed) + 1;
  const polite = last((slab) => !slab.tie);
  const full = (count: number) => stacked(slabs.slice(0, count)).height > height / 2;
  if (!fresh || full(polite)) return polite;
  // Ties yield before a page is left mostly empty, the loose ones first; a heading only where nothing else stands on the page.
  const loosely = last((slab) => !slab.tie || slab.loose === true);
  if (full(loosely)) return loosely;
  const anywhere = last((slab) => !slab.heading);
  return Math.max(polite, anywhere) || Math.max(1, fitting);
}

function howManyFit(slabs: readonly FlowBox[], height: number): number {
  let y = 0;
  for (const [i, slab] of slabs.entries()) {
    y = under(slab, slabs[i - 1], y).y + slab.height;
    const closes = slab.run !== undefined && slabs[i + 1]?.run !== slab.run;
    if (y + (slab.run?.close.height ?? 0) > height + 1e-6) return i;
    if (closes) y += slab.run.close.height;
  }
  return slabs.length;
}

function stacked(slabs: readonly FlowBox[]): Frame {
  const items: Frame["items"][number][] = [];
  let y = 0;
  for (const [i, slab] of slabs.entries()) {
    const place = under(slab, slabs[i - 1], y);
    if (place.head) items.push(...shift(place.head.items, 0, place.y - place.head.height));
    items.push(...shift(slab.items, 0, place.y));
    y = place.y + slab.height;
    if (slab.run && slabs[i + 1]?.run !== slab.run) {
      items.push(...shift(slab.run.close.items, 0, y));
      y += slab.run.close.height;
    }
  }
  return { height: y, items };
}

/** Where a slab goes below the one before it, and the head it brings if its run starts here or goes on here. */
function under(slab: FlowBox, before: FlowBox | undefined, y: number): { readonly y: number; readonly head?: Frame } {
  if (slab.run === undefined || before?.run === slab.run) return { y: before === undefined ? 0 : y + slab.gap };
  const head = slab.opens ? slab.run.head : slab.run.again;
  return { y: (before === undefined ? 0 : y + slab.gap) + head.height, head };
}
