import { deflateSync } from "node:zlib";

/** A picture of two by one pixels, grey unless told (PNG, W3C second edition: signature, IHDR, IDAT, IEND). */
export function tinyPng(colorType = 0, line: readonly number[] = [0, 40, 200]): Uint8Array {
  const chunk = (name: string, data: readonly number[]) => {
    const length = Buffer.alloc(4);
    length.writeUInt32BE(data.length);
    return Buffer.concat([length, Buffer.from(name, "latin1"), Buffer.from(data), Buffer.alloc(4)]);
  };
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk("IHDR", [0, 0, 0, 2, 0, 0, 0, 1, 8, colorType, 0, 0, 0]),
    chunk("IDAT", [...deflateSync(Buffer.from(line))]),
    chunk("IEND", []),
  ]);
}
