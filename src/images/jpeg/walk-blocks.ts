import { type Interval, peekBits } from "./entropy-data.ts";

/**
 * Walks over `units` units (MCUs; ISO/IEC 10918-1, A.2) of an interval, the first being number `first` of the scan, and returns
 * how many are sound. Values are passed over: whether they can be read shows in the codes and in where the data end.
 */
export type Walk = (interval: Interval, first: number, units: number) => number;

/** Lookups of a block: `ac` is absent where a progressive scan holds the DC coefficient alone. */
export type BlockTables = { readonly dc: Uint16Array; readonly ac?: Uint16Array };

/** Sequential scans, and the first DC scan of a progressive JPEG: `blocks` are those of a unit (F.2.2). */
export const walkSequential =
  (blocks: readonly BlockTables[]): Walk =>
  ({ data, bits }, _, units) => {
    let at = 0;
    for (let unit = 0; unit < units; unit++) {
      for (let i = 0; i < blocks.length; i++) {
        const { dc, ac } = blocks[i]!;
        const entry = dc[peekBits(data, at)]!;
        if (entry === 0) return unit;
        at += (entry >> 8) + (entry & 15);
        if (ac === undefined) continue;
        at = skipAc(data, at, ac);
        if (at < 0) return unit;
      }
      if (at > bits) return unit;
    }
    return endsHere(bits, at) ? units : units - 1;
  };

/** Position behind the AC coefficients of a block; -1 where they are no codes or too many. */
function skipAc(data: Uint8Array, from: number, ac: Uint16Array): number {
  let at = from;
  for (let k = 1; k < 64; ) {
    const entry = ac[peekBits(data, at)]!;
    if (entry === 0) return -1;
    const symbol = entry & 0xff;
    at += (entry >> 8) + (symbol & 15);
    if (symbol === 0) return at;
    k += (symbol >> 4) + 1;
    if (k > 64) return -1;
  }
  return at;
}

/** A whole byte behind the last unit tells that the units were not read as they were written. */
const endsHere = (bits: number, at: number): boolean => at <= bits && bits - at < 8;

/** Later DC scans: a bit a block (G.1.2.1). */
export const walkDcBits =
  (blocks: number): Walk =>
  ({ bits }, _, units) =>
    endsHere(bits, units * blocks) ? units : Math.min(units - 1, Math.floor(bits / blocks));

/** A scan of the AC coefficients `from` to `to` of one component. */
type AcScan = {
  readonly ac: Uint16Array;
  readonly from: number;
  readonly to: number;
  /** Coefficients that are not zero: a bit each, eight bytes a block. */
  readonly known: Uint8Array;
};

/** The first scan of AC coefficients (G.1.2.2). */
export const walkAcFirst =
  ({ ac, from, to, known }: AcScan): Walk =>
  ({ data, bits }, first, units) => {
    let at = 0;
    let endRun = 0;
    for (let unit = 0; unit < units; unit++) {
      if (endRun > 0) {
        endRun--;
        continue;
      }
      const block = (first + unit) * 8;
      for (let k = from; k <= to; k++) {
        const entry = ac[peekBits(data, at)]!;
        if (entry === 0) return unit;
        const run = (entry >> 4) & 15;
        const size = entry & 15;
        at += entry >> 8;
        if (size === 0 && run < 15) {
          endRun = readRun(data, at, run) - 1;
          at += run;
          break;
        }
        k += run;
        if (k > to) return unit;
        if (size > 0) known[block + (k >> 3)]! |= 1 << (k & 7);
        at += size;
      }
      if (at > bits) return unit;
    }
    return endRun === 0 && endsHere(bits, at) ? units : units - 1;
  };

/** Length of a run of blocks that have no further coefficient, this one included. */
const readRun = (data: Uint8Array, at: number, size: number): number =>
  (1 << size) + (peekBits(data, at) >> (16 - size));

/** Later scans of AC coefficients: new ones, and between them a bit for each that is not zero already (G.1.2.3). */
export const walkAcRefinement =
  ({ ac, from, to, known }: AcScan): Walk =>
  ({ data, bits }, first, units) => {
    const isKnown = (block: number, k: number) => (known[block + (k >> 3)]! >> (k & 7)) & 1;
    let at = 0;
    let endRun = 0;
    for (let unit = 0; unit < units; unit++) {
      const block = (first + unit) * 8;
      let k = from;
      while (endRun === 0 && k <= to) {
        const entry = ac[peekBits(data, at)]!;
        let run = (entry >> 4) & 15;
        const size = entry & 15;
        if (entry === 0 || size > 1) return unit;
        at += (entry >> 8) + size;
        if (size === 0 && run < 15) {
          endRun = readRun(data, at, run);
          at += run;
          break;
        }
        for (; k <= to; k++) {
          if (isKnown(block, k)) at++;
          else if (run-- === 0) break;
        }
        if (k > to) return unit;
        if (size > 0) known[block + (k >> 3)]! |= 1 << (k & 7);
        k++;
      }
      if (endRun > 0) {
        for (; k <= to; k++) at += isKnown(block, k);
        endRun--;
      }
      if (at > bits) return unit;
    }
    return endRun === 0 && endsHere(bits, at) ? units : units - 1;
  };
