import { hasIdentifier, isJpeg, JPEG, type JpegSegment, parseJpegSegments } from "./jpeg/segments.ts";

const EXIF = 0xe1;

/**
 * Removes the metadata of a JPEG: place, time, author, thumbnails, comments. Colour profile, colour transform and
 * orientation stay, for drawing needs them. Other formats are returned unchanged; of a PNG only the pixels reach the page.
 */
export function stripMetadata(bytes: Uint8Array): Uint8Array {
  if (!isJpeg(bytes)) return bytes;
  const segments = parseJpegSegments(bytes);
  const orientation = segments.reduce(
    (known, one) => (one.marker === EXIF ? (readOrientation(one) ?? known) : known),
    1,
  );
  return Buffer.concat([
    JPEG.start,
    ...(orientation === 1 ? [] : [orientationSegment(orientation)]),
    ...segments.filter(isNeededToDraw).map(removeThumbnail),
    JPEG.end,
  ]);
}

/** Removes Exif and the colour profile too: inside a PDF, the file states orientation and colours itself. */
export function stripToImageData(bytes: Uint8Array): Uint8Array {
  const isNeededInPdf = (one: JpegSegment) => one.marker !== EXIF && one.marker !== 0xe2;
  const segments = parseJpegSegments(bytes).filter((one) => isNeededInPdf(one) && isNeededToDraw(one));
  return Buffer.concat([JPEG.start, ...segments.map(removeThumbnail), JPEG.end]);
}

/** Keeps the application segments that drawing needs: JFIF density, ICC profile, Adobe colour transform. */
function isNeededToDraw(segment: JpegSegment): boolean {
  const { marker } = segment;
  if (marker === JPEG.comment) return false;
  if (marker < 0xe0 || marker > 0xef) return true;
  if (marker === 0xe0) return hasIdentifier(segment, "JFIF\0");
  if (marker === 0xe2) return hasIdentifier(segment, "ICC_PROFILE\0");
  return marker === 0xee && hasIdentifier(segment, "Adobe");
}

/** A JFIF segment without a thumbnail is 18 bytes long (JFIF 1.02). */
function removeThumbnail({ marker, bytes }: JpegSegment): Uint8Array {
  if (marker !== 0xe0 || bytes.length <= 18) return bytes;
  const short = bytes.slice(0, 18);
  short.set([0, 16], 2);
  short.set([0, 0], 16);
  return short;
}

/** Exif's orientation, 1 to 8 (CIPA DC-008, tag 0x0112). */
function readOrientation(segment: JpegSegment): number | undefined {
  if (!hasIdentifier(segment, "Exif\0\0")) return undefined;
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

/** An Exif segment with the orientation as its only entry. */
function orientationSegment(value: number): Uint8Array {
  const tiff = [0x4d, 0x4d, 0, 42, 0, 0, 0, 8, 0, 1, 0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, value, 0, 0, 0, 0, 0, 0];
  const body = [0x45, 0x78, 0x69, 0x66, 0, 0, ...tiff];
  return new Uint8Array([0xff, EXIF, 0, body.length + 2, ...body]);
}
