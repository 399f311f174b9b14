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
