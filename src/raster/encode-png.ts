import { deflateSync } from "node:zlib";
import { encode } from "fast-png";
import type { Pixels } from "./page-pixels.ts";

/** Pixels as a PNG. */
export const asPng = ({ width, height, data }: Pixels): Uint8Array =>
  encode({ width, height, channels: 4, depth: 8, data });

/** Opaque pixels as a PNG: a third smaller, and no second picture of opacities in a PDF. */
export function asOpaquePng({ width, height, data }: Pixels): Uint8Array {
  const colours = new Uint8Array(width * height * 3);
  for (let from = 0, to = 0; to < colours.length; from += 4, to += 3) colours.set(data.subarray(from, from + 3), to);
  return encode({ width, height, channels: 3, depth: 8, data: colours });
}

/** Pixels as shades of grey, 0 black to 255 white, row by row (weights of ITU-R BT.601). */
export function greys({ width, height, data }: Pixels): Uint8Array {
  const shades = new Uint8Array(width * height);
  for (let i = 0, at = 0; i < shades.length; i++, at += 4)
    shades[i] = Math.round(0.299 * data[at]! + 0.587 * data[at + 1]! + 0.114 * data[at + 2]!);
  return shades;
}

/** A small PNG of pixels for the eye alone: in grey, of 16 shades, which packs a page of text into a few kilobytes. */
export function greyPng(pixels: Pixels): Uint8Array {
  const { width, height } = pixels;
  const data = greys(pixels).map((shade) => Math.round(shade / 17) * 17);
  return encode({ width, height, channels: 1, depth: 8, data }, { zlib: { level: 9 } });
}

const SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];

/**
 * A picture of opaque RGBA pixels as PNG (ISO/IEC 15948), packed by Node itself and in haste: a page at 200 dots an inch takes a
 * twentieth of the time that a smaller file would, and it only travels to the browser next door.
 */
export function quickPng(width: number, height: number, rgba: Uint8Array): Uint8Array {
  const rows = new Uint8Array(height * (1 + 3 * width));
  for (let y = 0, from = 0, to = 0; y < height; y++) {
    to++; // filter 0: the row as it is
    for (let x = 0; x < width; x++, from += 4) {
      rows[to++] = rgba[from]!;
      rows[to++] = rgba[from + 1]!;
      rows[to++] = rgba[from + 2]!;
    }
  }
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head.set([8, 2, 0, 0, 0], 8); // eight bits, red green blue
  return Buffer.concat([
    Buffer.from(SIGNATURE),
    chunk("IHDR", head),
    chunk("IDAT", deflateSync(rows, { level: 1 })),
    chunk("IEND", Buffer.alloc(0)),
  ]);
}

function chunk(name: string, data: Uint8Array): Buffer {
  const body = Buffer.concat([Buffer.from(name, "latin1"), data]);
  const whole = Buffer.alloc(body.length + 8);
  whole.writeUInt32BE(data.length, 0);
  whole.set(body, 4);
  whole.writeUInt32BE(crc(body), body.length + 4);
  return whole;
}

const TABLE = Uint32Array.from({ length: 256 }, (_, start) => {
  let value = start;
  for (let bit = 0; bit < 8; bit++) value = value & 1 ? 0xedb88320 ^ (value >>> 1) : value >>> 1;
  return value;
});

/** ISO/IEC 15948, annex D. */
function crc(bytes: Uint8Array): number {
  let value = 0xffffffff;
  for (const byte of bytes) value = TABLE[(value ^ byte) & 0xff]! ^ (value >>> 8);
  return (value ^ 0xffffffff) >>> 0;
}
