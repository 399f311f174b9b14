import { isJpeg, isNamed, JPEG, type JpegSegment, jpegSegments } from "./jpeg-segments.ts";

const EXIF = 0xe1;

/**
 * A JPEG without what the camera noted in it: where and when it was taken, by whom, thumbnails, comments. Kept is what it
 * needs to be drawn right: colour profile, colour transform, and which way up. Other bytes are returned as they are; of a
 * PNG only its pixels reach the page.
 */
export function stripMetadata(bytes: Uint8Array): Uint8Array {
  if (!isJpeg(bytes)) return bytes;
  const segments = jpegSegments(bytes);
  const turned = segments.reduce((known, one) => (one.marker === EXIF ? (orientation(one) ?? known) : known), 1);
  return Buffer.concat([
    JPEG.start,
    ...(turned === 1 ? [] : [whichWayUp(turned)]),
    ...segments.filter(isNeeded).map(withoutThumbnail),
    JPEG.end,
  ]);
}

/** Only what a reader of PDF looks at: the file itself says which way up the picture stands and what its colours are. */
export function picturesDataOnly(bytes: Uint8Array): Uint8Array {
  const told = (one: JpegSegment) => one.marker !== EXIF && one.marker !== 0xe2;
  const segments = jpegSegments(bytes).filter((one) => told(one) && isNeeded(one));
  return Buffer.concat([JPEG.start, ...segments.map(withoutThumbnail), JPEG.end]);
}

/** Application segments that drawing needs: JFIF's density, an ICC profile, Adobe's colour transform. */
function isNeeded(segment: JpegSegment): boolean {
  const { marker } = segment;
  if (marker === JPEG.comment) return false;
  if (marker < 0xe0 || marker > 0xef) return true;
  if (marker === 0xe0) return isNamed(segment, "JFIF\0");
  if (marker === 0xe2) return isNamed(segment, "ICC_PROFILE\0");
  return marker === 0xee && isNamed(segment, "Adobe");
}

/** JFIF's own segment is 18 bytes long where it holds no small picture (JFIF 1.02). */
function withoutThumbnail({ marker, bytes }: JpegSegment): Uint8Array {
  if (marker !== 0xe0 || bytes.length <= 18) return bytes;
  const short = bytes.slice(0, 18);
  short.set([0, 16], 2);
  short.set([0, 0], 16);
  return short;
}

/** Exif's orientation, 1 to 8 (CIPA DC-008, tag 0x0112). */
function orientation(segment: JpegSegment): number | undefined {
  if (!isNamed(segment, "Exif\0\0")) return undefined;
  const { bytes } = segment;
  const tiff = new DataView(
    bytes.buffer,
    bytes.byteOffset + Math.min(10, bytes.byteLength),
    Math.max(0, bytes.byteLength - 10),
  );
  if (tiff.byteLength < 10) return undefined;
  const little = tiff.getUint16(0) === 0x4949;
  const first = tiff.getUint32(4, little);
  if (first + 2 > tiff.byteLength) return undefined;
  const entries = tiff.getUint16(first, little);
  for (let i = 0, entry = first + 2; i < entries && entry + 12 <= tiff.byteLength; i++, entry += 12) {
    if (tiff.getUint16(entry, little) !== 0x0112) continue;
    const value = tiff.getUint16(entry + 8, little);
    return value >= 1 && value <= 8 ? value : undefined;
  }
  return undefined;
}

/** The smallest Exif segment there is: one entry, the orientation. */
function whichWayUp(value: number): Uint8Array {
  const tiff = [0x4d, 0x4d, 0, 42, 0, 0, 0, 8, 0, 1, 0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, value, 0, 0, 0, 0, 0, 0];
  const body = [0x45, 0x78, 0x69, 0x66, 0, 0, ...tiff];
  return new Uint8Array([0xff, EXIF, 0, body.length + 2, ...body]);
}
