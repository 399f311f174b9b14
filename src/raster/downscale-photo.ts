import { encode } from "jpeg-js";
import { colourProfile, profileSegments } from "../images/colour-profile.ts";
import { isJpeg } from "../images/jpeg-segments.ts";
import { picturePage } from "../pdf/pictures.ts";
import { asOpaquePng } from "./encode-png.ts";
import { type Pixels, pagePixels } from "./page-pixels.ts";

/** Of 100: what the eye cannot tell from the camera's own at reading distance. */
const QUALITY = 85;

/**
 * A picture at that many pixels, the right way up, on white where it was see-through. Each new pixel is the mean of those it
 * covers. PDFium draws it from the file line by line, so that the whole never stands unpacked in memory. Undefined where there
 * is nothing to be seen: data that cannot be read through leave the page blank.
 */
export async function downscalePhoto(
  bytes: Uint8Array,
  size: { readonly width: number; readonly height: number },
): Promise<Uint8Array | undefined> {
  const [pixels] = await pagePixels(await picturePage(bytes, size), 1);
  if (pixels === undefined || isBlank(pixels)) return undefined;
  const jpeg = asJpeg(pixels, bytes);
  if (isJpeg(bytes)) return jpeg;
  // A drawing packs about as well without losses, and a JPEG would blur its edges; a photograph never does.
  const png = asOpaquePng(pixels);
  return png.length < 2 * jpeg.length ? png : jpeg;
}

function isBlank({ data }: Pixels): boolean {
  for (let at = 4; at < data.length; at++) if (data[at] !== data[at - 4]) return false;
  return true;
}

/** With the colour profile of the photo that it was made from: its numbers still mean the same colours. */
function asJpeg(pixels: Pixels, source: Uint8Array): Uint8Array {
  const jpeg = new Uint8Array(encode(pixels, QUALITY).data);
  if (colourProfile(source)?.channels !== 3) return jpeg;
  return Buffer.concat([
    jpeg.subarray(0, 2),
    ...profileSegments(source).map((segment) => segment.bytes),
    jpeg.subarray(2),
  ]);
}
