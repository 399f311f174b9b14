import type { JpegComponent, JpegFrame } from "./header.ts";

/** Parameters of a scan (ISO/IEC 10918-1, B.2.3). */
export type ScanHeader = {
  readonly components: readonly ScanComponent[];
  /** First and last coefficient, in zigzag order. */
  readonly from: number;
  readonly to: number;
  /** Bit that the scan before ended at, and bit that this one ends at; 0 and 0 in a sequential scan. */
  readonly highBit: number;
  readonly lowBit: number;
};

type ScanComponent = JpegComponent & { readonly index: number; readonly dc: number; readonly ac: number };

/** Most blocks in a unit of several components. */
const BLOCKS_AT_MOST = 10;
const LOWEST_BIT_AT_MOST = 13;

/** Parses the header of a scan, `body` following its length; undefined when it is damaged or names what the frame has not. */
export function parseScanHeader(body: Uint8Array, frame: JpegFrame): ScanHeader | undefined {
  const count = body[0] ?? 0;
  if (count < 1 || count > 4 || body.length !== 4 + 2 * count) return undefined;
  const components = Array.from({ length: count }, (_, i): ScanComponent | undefined => {
    const [id, tables] = [body[1 + 2 * i]!, body[2 + 2 * i]!];
    const index = frame.components.findIndex((one) => one.id === id);
    return index < 0 ? undefined : { ...frame.components[index]!, index, dc: tables >> 4, ac: tables & 15 };
  }).filter((one) => one !== undefined);
  const [from, to, bits] = body.subarray(1 + 2 * count) as unknown as [number, number, number];
  const header = { components, from, to, highBit: bits >> 4, lowBit: bits & 15 };
  const blocks = components.reduce((sum, one) => sum + blocksOf(one), 0);
  const sound =
    components.length === count &&
    new Set(components.map(({ index }) => index)).size === count &&
    (count === 1 || blocks <= BLOCKS_AT_MOST) &&
    (frame.progressive ? isProgressive(header) : from === 0 && to === 63 && bits === 0);
  return sound ? header : undefined;
}

export const blocksOf = ({ across, down }: JpegComponent): number => across * down;

/** Selection and approximation that a progressive scan may have (G.1.1.1). */
const isProgressive = ({ components, from, to, highBit, lowBit }: ScanHeader): boolean =>
  (from === 0 ? to === 0 : to >= from && to <= 63 && components.length === 1) &&
  lowBit <= LOWEST_BIT_AT_MOST &&
  (highBit === 0 || highBit === lowBit + 1);
