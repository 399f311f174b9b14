import type { HuffmanTable } from "./huffman-lookup.ts";

/** Tables that the segments before a scan have defined; each may be defined anew for a later scan. */
export type Tables = {
  readonly quantisation: ReadonlySet<number>;
  readonly dc: ReadonlyMap<number, HuffmanTable>;
  readonly ac: ReadonlyMap<number, HuffmanTable>;
  /** Units between two restart markers; 0: there are none. */
  readonly restartInterval: number;
};

export const NO_TABLES: Tables = { quantisation: new Set(), dc: new Map(), ac: new Map(), restartInterval: 0 };

const TABLES_AT_MOST = 4;

/** Adds the tables of a segment (ISO/IEC 10918-1, B.2.4); undefined when it is damaged. `body` follows the segment's length. */
export function addTables(tables: Tables, marker: number, body: Uint8Array): Tables | undefined {
  switch (marker) {
    case 0xdb:
      return addQuantisation(tables, body);
    case 0xc4:
      return addHuffman(tables, body);
    case 0xdd:
      return body.length === 2 ? { ...tables, restartInterval: (body[0]! << 8) | body[1]! } : undefined;
    default:
      return tables;
  }
}

function addQuantisation(tables: Tables, body: Uint8Array): Tables | undefined {
  const quantisation = new Set(tables.quantisation);
  let at = 0;
  while (at < body.length) {
    const [wide, id] = [body[at]! >> 4, body[at]! & 15];
    if (wide > 1 || id >= TABLES_AT_MOST) return undefined;
    quantisation.add(id);
    at += 1 + 64 * (1 + wide);
  }
  return at === body.length ? { ...tables, quantisation } : undefined;
}

function addHuffman(tables: Tables, body: Uint8Array): Tables | undefined {
  const added = [new Map(tables.dc), new Map(tables.ac)] as const;
  let at = 0;
  while (at + 17 <= body.length) {
    const [kind, id] = [body[at]! >> 4, body[at]! & 15];
    const counts = body.subarray(at + 1, at + 17);
    const end = at + 17 + counts.reduce((sum, count) => sum + count, 0);
    if (kind > 1 || id >= TABLES_AT_MOST || end > body.length || end > at + 17 + 256) return undefined;
    added[kind as 0 | 1].set(id, { counts, symbols: body.subarray(at + 17, end) });
    at = end;
  }
  return at === body.length ? { ...tables, dc: added[0], ac: added[1] } : undefined;
}
