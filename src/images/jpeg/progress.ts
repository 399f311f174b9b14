import type { JpegFrame } from "./header.ts";
import type { ScanHeader } from "./scan-header.ts";

/** What the scans of a JPEG have given so far. */
export type Progress = {
  /** Adds a scan; false when it does not continue the ones before (ISO/IEC 10918-1, G.1.1.1.1). */
  readonly add: (scan: ScanHeader) => boolean;
  readonly isComplete: () => boolean;
  /** Coefficients of a component that are not zero: a bit each, eight bytes a block. */
  readonly knownOf: (component: number, blocks: number) => Uint8Array;
};

/** No scan has given this coefficient. */
const NONE = -1;

export function createProgress({ components }: JpegFrame): Progress {
  const lowBits = components.map(() => new Int8Array(64).fill(NONE));
  const known = new Map<number, Uint8Array>();
  return {
    add: ({ components: scanned, from, to, highBit, lowBit }) =>
      scanned.every(({ index }) => {
        const bits = lowBits[index]!;
        const wanted = highBit === 0 ? NONE : highBit;
        const follows = (from === 0 || bits[0] !== NONE) && bits.subarray(from, to + 1).every((one) => one === wanted);
        bits.fill(lowBit, from, to + 1);
        return follows;
      }),
    isComplete: () => lowBits.every((bits) => bits[0] !== NONE),
    knownOf: (component, blocks) => {
      const held = known.get(component) ?? new Uint8Array(blocks * 8);
      known.set(component, held);
      return held;
    },
  };
}
