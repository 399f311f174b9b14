import { encode } from "fast-png";
import type { Pixels } from "./page-pixels.ts";

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
