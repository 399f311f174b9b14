/**
 * A JPEG without what the camera noted in it: where and when it was taken, by whom, thumbnails, comments. Kept is what it
 * needs to be drawn right: colour profile, colour transform, and which way up. Other bytes are returned as they are; of a
 * PNG only its pixels reach the page.
 */
export function withoutMetadata(bytes: Uint8Array): Uint8Array {
  if (bytes[0] !== 0xff || bytes[1] !== 0xd8) return bytes;
  const kept: Uint8Array[] = [bytes.subarray(0, 2)];
  let turned = 1;
  let at = 2;
  while (at + 4 <= bytes.length && bytes[at] === 0xff) {
    const marker = bytes[at + 1]!;
    // Fill bytes may stand before a marker.
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    if (marker === SCAN) break;
    const end = at + 2 + word(bytes, at + 2);
    const segment = bytes.subarray(at, end);
    if (marker === EXIF) turned = orientation(segment) ?? turned;
    if (isNeeded(marker, segment)) kept.push(segment);
    at = end;
  }
  // The scan to its end; what some cameras put behind it, such as a second picture, goes.
  const close = endOfImage(bytes, at);
  const head = turned === 1 ? kept : [kept[0]!, whichWayUp(turned), ...kept.slice(1)];
  return joined([...head, bytes.subarray(at, close)]);
}

const SCAN = 0xda;
const EXIF = 0xe1;
const COMMENT = 0xfe;

const word = (bytes: Uint8Array, at: number) => (bytes[at]! << 8) | bytes[at + 1]!;
const startsWith = (segment: Uint8Array, name: string) =>
  [...name].every((letter, i) => segment[4 + i] === letter.charCodeAt(0));

/** Application segments that drawing needs: JFIF's density, an ICC profile, Adobe's colour transform. */
function isNeeded(marker: number, segment: Uint8Array): boolean {
  if (marker === COMMENT) return false;
  if (marker < 0xe0 || marker > 0xef) return true;
  if (marker === 0xe0) return startsWith(segment, "JFIF\0");
  if (marker === 0xe2) return startsWith(segment, "ICC_PROFILE\0");
  return marker === 0xee && startsWith(segment, "Adobe");
}

/** Exif's orientation, 1 to 8 (CIPA DC-008, tag 0x0112). */
function orientation(segment: Uint8Array): number | undefined {
  if (!startsWith(segment, "Exif\0\0")) return undefined;
  const tiff = new DataView(segment.buffer, segment.byteOffset + 10, Math.max(0, segment.byteLength - 10));
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

function endOfImage(bytes: Uint8Array, from: number): number {
  for (let at = from; at + 1 < bytes.length; at++) if (bytes[at] === 0xff && bytes[at + 1] === 0xd9) return at + 2;
  return bytes.length;
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
