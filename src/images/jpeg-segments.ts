/** A piece of a JPEG from its marker to the next (ISO/IEC 10918-1, B.1.1); a scan's holds the picture's data too. */
export type JpegSegment = { readonly marker: number; readonly bytes: Uint8Array };

export const JPEG = {
  start: new Uint8Array([0xff, 0xd8]),
  end: new Uint8Array([0xff, 0xd9]),
  scan: 0xda,
  comment: 0xfe,
} as const;

export const isJpeg = (bytes: Uint8Array): boolean => bytes[0] === 0xff && bytes[1] === 0xd8;

/** The segments of a JPEG up to the end of its picture; what some cameras put behind it, such as a second one, is none. */
export function jpegSegments(bytes: Uint8Array): readonly JpegSegment[] {
  const segments: JpegSegment[] = [];
  let at = 2;
  while (at + 4 <= bytes.length && bytes[at] === 0xff) {
    const marker = bytes[at + 1]!;
    // Fill bytes may stand before a marker.
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    if (marker === 0xd9) break;
    const head = at + 2 + word(bytes, at + 2);
    const end = marker === JPEG.scan ? endOfScan(bytes, head) : head;
    segments.push({ marker, bytes: bytes.subarray(at, end) });
    at = end;
  }
  return segments;
}

/** Whether a segment is the application's of that name. */
export const isNamed = ({ bytes }: JpegSegment, name: string): boolean =>
  [...name].every((letter, i) => bytes[4 + i] === letter.charCodeAt(0));

const word = (bytes: Uint8Array, at: number): number => (bytes[at]! << 8) | bytes[at + 1]!;

/** Where the next marker stands: in a scan's data every other 0xff is followed by a nought, or restarts the count. */
function endOfScan(bytes: Uint8Array, from: number): number {
  for (let at = from; at + 1 < bytes.length; at++) {
    if (bytes[at] !== 0xff) continue;
    const next = bytes[at + 1]!;
    if (next !== 0 && next !== 0xff && !(next >= 0xd0 && next <= 0xd7)) return at;
  }
  return bytes.length;
}
