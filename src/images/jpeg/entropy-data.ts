/** Entropy-coded data up to a restart marker, without byte stuffing; zeros follow it. */
export type Interval = { readonly data: Uint8Array; readonly bits: number };

/** Zeros appended, so that decoding one unit never runs past the end [bytes]: at most 10 blocks × 64 codes × 31 bits. */
const PADDING = 4096;

/** Next 16 bits at a bit position. */
export const peekBits = (data: Uint8Array, at: number): number => {
  const byte = at >> 3;
  return (((data[byte]! << 16) | (data[byte + 1]! << 8) | data[byte + 2]!) >> (8 - (at & 7))) & 0xffff;
};

/**
 * Yields the intervals of a scan (ISO/IEC 10918-1, B.1.1.5 and E.1.4), all in one buffer: each is valid until the next. Stops
 * at a restart marker that is out of order.
 */
export function* readIntervals(scan: Uint8Array): Generator<Interval> {
  const data = new Uint8Array(scan.length + PADDING);
  let length = 0;
  let before = 0;
  let restarts = 0;
  const close = (): Interval => {
    data.fill(0, length, Math.max(length, before));
    before = length;
    length = 0;
    return { data, bits: before * 8 };
  };
  for (let at = 0; at < scan.length; at++) {
    const byte = scan[at]!;
    if (byte !== 0xff) {
      data[length++] = byte;
      continue;
    }
    while (scan[at + 1] === 0xff) at++; // fill bytes
    const next = scan[++at];
    if (next === 0) data[length++] = 0xff;
    else if (next !== undefined) {
      yield close();
      if (next !== 0xd0 + (restarts++ & 7)) return;
    }
  }
  yield close();
}
