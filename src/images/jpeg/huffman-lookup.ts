/** A Huffman table as the file gives it: how many codes there are of each length, 1 to 16 bits, and the symbols in their order. */
export type HuffmanTable = { readonly counts: Uint8Array; readonly symbols: Uint8Array };

/**
 * For each 16 bits that may come next: length of the code they begin with × 256 + its symbol, or 0 where they begin with none.
 * Undefined when the codes do not fit their lengths (ISO/IEC 10918-1, C.2); a code of ones alone is not permitted.
 */
export function buildHuffmanLookup({ counts, symbols }: HuffmanTable): Uint16Array | undefined {
  const lookup = new Uint16Array(1 << 16);
  let start = 0;
  let used = 0;
  for (let length = 1; length <= 16; length++) {
    const span = 1 << (16 - length);
    for (let i = 0; i < counts[length - 1]!; i++, start += span) {
      if (start + span >= lookup.length) return undefined;
      lookup.fill((length << 8) | symbols[used++]!, start, start + span);
    }
  }
  return lookup;
}
