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

/** The frame of a JPEG: markers as ISO/IEC 10918-1, annex B, has them; the scan itself is a stub that no header check looks into. */
export function jpeg({ width, height, frame = 0xc0, components = 3, end = true }: JpegParts): Uint8Array {
  const planes = Array.from({ length: components }, (_, i) => [i + 1, 0x11, 0]).flat();
  return new Uint8Array([
    ...[0xff, 0xd8],
    ...marker(0xe0, [0x4a, 0x46, 0x49, 0x46, 0, 1, 1, 0, 0, 1, 0, 1, 0, 0]),
    ...marker(frame, [8, ...two(height), ...two(width), components, ...planes]),
    ...marker(0xda, [1, 1, 0, 0, 63, 0]),
    ...[0x12, 0x34],
    ...(end ? [0xff, 0xd9] : []),
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
