import { deflateSync } from "node:zlib";

const marker = (code: number, body: readonly number[]) => [
  0xff,
  code,
  (body.length + 2) >> 8,
  (body.length + 2) & 255,
  ...body,
];
const two = (value: number) => [value >> 8, value & 255];

export type JpegParts = {
  readonly width: number;
  readonly height: number;
  readonly frame?: number;
  readonly components?: number;
  readonly end?: boolean;
};

/** Most pixels of a picture whose data are written. */
const DRAWN_PIXELS = 64_000_000;

/**
 * A grey JPEG (ISO/IEC 10918-1, annex B) whose tables hold one code of one bit each: no difference, no further coefficient. A
 * sequential block is two bits, a progressive one, its first scan alone, is one.
 */
export function jpeg({ width, height, frame = 0xc0, components = 3, end = true }: JpegParts): Uint8Array {
  const each = (of: (n: number) => readonly number[]) => Array.from({ length: components }, (_, i) => of(i + 1)).flat();
  const progressive = frame === 0xc2;
  const blocks = Math.ceil(width / 8) * Math.ceil(height / 8) * components;
  const bits = width * height > DRAWN_PIXELS ? 0 : blocks * (progressive ? 1 : 2);
  const code = [1, ...Array<number>(15).fill(0), 0];
  return Buffer.concat([
    new Uint8Array([
      ...[0xff, 0xd8],
      ...marker(0xe0, [0x4a, 0x46, 0x49, 0x46, 0, 1, 1, 0, 0, 1, 0, 1, 0, 0]),
      ...marker(0xdb, [0, ...Array<number>(64).fill(1)]),
      ...marker(0xc4, [0x00, ...code, 0x10, ...code]),
      ...marker(frame, [8, ...two(height), ...two(width), components, ...each((n) => [n, 0x11, 0])]),
      ...marker(0xda, [components, ...each((n) => [n, 0]), 0, progressive ? 0 : 63, 0]),
    ]),
    Buffer.alloc(Math.ceil(bits / 8)),
    new Uint8Array(end ? [0xff, 0xd9] : []),
  ]);
}

export type PngParts = {
  readonly width: number;
  readonly height: number;
  readonly bits?: number;
  readonly colour?: number;
  readonly interlaced?: number;
  /** Rows as they are before packing; none given: as many zeros as the header says, for 8-bit RGB. */
  readonly rows?: Uint8Array;
  readonly extra?: readonly (readonly [string, Uint8Array])[];
};

/** A PNG, chunk by chunk (ISO/IEC 15948, clause 5). */
export function png({ width, height, bits = 8, colour = 2, interlaced = 0, rows, extra = [] }: PngParts): Uint8Array {
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head.set([bits, colour, 0, 0, interlaced], 8);
  const data = deflateSync(rows ?? Buffer.alloc(height * (1 + width * 3)));
  const parts = [["IHDR", head], ...extra, ["IDAT", data], ["IEND", Buffer.alloc(0)]] as const;
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    ...parts.map(([type, body]) => chunk(type, body)),
  ]);
}

function chunk(type: string, body: Uint8Array): Buffer {
  const named = Buffer.concat([Buffer.from(type, "latin1"), body]);
  const length = Buffer.alloc(4);
  length.writeUInt32BE(body.length);
  const sum = Buffer.alloc(4);
  sum.writeUInt32BE(crc(named));
  return Buffer.concat([length, named, sum]);
}

/** ISO/IEC 15948, annex D. */
function crc(bytes: Uint8Array): number {
  let rest = 0xffffffff;
  for (const byte of bytes) {
    rest ^= byte;
    for (let bit = 0; bit < 8; bit++) rest = rest & 1 ? (rest >>> 1) ^ 0xedb88320 : rest >>> 1;
  }
  return (rest ^ 0xffffffff) >>> 0;
}
