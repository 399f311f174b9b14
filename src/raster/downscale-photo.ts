import { encode } from "jpeg-js";
import { findColourProfile, isJpeg, profileSegments } from "../images/jpeg/segments.ts";
import { renderPicturePage } from "../pdf/pictures.ts";
import { encodeOpaquePng, type Pixels } from "./encode-png.ts";
import { rasterizePages } from "./page-renderer.ts";

/** Size to scale a photo to, and the part to keep of it [pixels]. */
export type Target = {
  readonly width: number;
  readonly height: number;
  readonly seen?: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
};

/** JPEG quality of 100: indistinguishable from the original at reading distance. */
const JPEG_QUALITY = 85;

/**
 * Scales an image down to that many pixels, upright, cropped to what is seen of it, transparency on white. Each new pixel is the mean of those it covers.
 * PDFium decodes line by line, so the whole image is never in memory. Undefined when the result is blank, as it is when the
 * data cannot be decoded.
 */
export async function downscalePhoto(bytes: Uint8Array, target: Target): Promise<Uint8Array | undefined> {
  const [pixels] = await rasterizePages(await renderPicturePage(bytes, target), 1);
  if (pixels === undefined || isBlank(pixels)) return undefined;
  const jpeg = encodeJpeg(pixels, bytes);
  if (isJpeg(bytes)) return jpeg;
  // A drawing is about as small as PNG, and JPEG would blur its edges; a photograph is much smaller as JPEG.
  const png = encodeOpaquePng(pixels);
  return png.length < 2 * jpeg.length ? png : jpeg;
}

function isBlank({ data }: Pixels): boolean {
  for (let at = 4; at < data.length; at++) if (data[at] !== data[at - 4]) return false;
  return true;
}

/** Copies the colour profile of the source photo: the RGB values still refer to it. */
function encodeJpeg(pixels: Pixels, source: Uint8Array): Uint8Array {
  const jpeg = new Uint8Array(encode(pixels, JPEG_QUALITY).data);
  if (findColourProfile(source)?.channels !== 3) return jpeg;
  return Buffer.concat([
    jpeg.subarray(0, 2),
    ...profileSegments(source).map((segment) => segment.bytes),
    jpeg.subarray(2),
  ]);
}
